import { resolve } from "node:path";
import { isBackupPath } from "../host/arguments.ts";
import { ownArguments } from "./own-arguments.ts";

/**
 * The backup that a command line names, as the system does when one is opened in its file manager.
 *
 * @param argv the whole line of a second start
 * @param folder where that start was made, from which its path may go
 * @returns its whole path, or null when there is none
 */
export function backupIn(
  argv: readonly string[],
  folder: string,
  isPackaged: boolean,
): string | null {
  const named = ownArguments(argv, isPackaged).find(isBackupPath);
  return named === undefined ? null : resolve(folder, named);
}

/** The page that shows what restoring a kept backup would lose. */
export const restorePage = (name: string): `/${string}` =>
  `/settings?restore=${encodeURIComponent(name)}`;

/** The backup that the system asked to open and that is not shown yet; the newest one counts. */
export class AskedBackup {
  #path: string | null = null;
  #onAsk: () => void = () => {};

  /** @param path whole; null asks for nothing */
  ask(path: string | null): void {
    if (path === null) return;
    this.#path = path;
    this.#onAsk();
  }

  /** What was asked for, once. */
  take(): string | null {
    const path = this.#path;
    this.#path = null;
    return path;
  }

  /** From now on whoever shows pages is told; at once, if something was asked for already. */
  follow(onAsk: () => void): void {
    this.#onAsk = onAsk;
    if (this.#path !== null) onAsk();
  }
}
