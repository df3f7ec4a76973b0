import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { z } from "zod";
import { renameDurably } from "../../files/durable-file.ts";
import { listBackups, restoreLocked } from "./backup.ts";
import { lockFolder } from "./folder-lock.ts";
import { StoreError, withStoreErrors } from "./store-error.ts";

// A file that is open cannot be replaced, so a backup chosen on a page is put back at the next start.

const askedSchema = z.strictObject({ backup: z.string().max(100) });
const pathIn = (folder: string): string => join(folder, "restore-next.json");

/** What became of a backup that was asked for. */
export interface Restored {
  readonly backup: string;
  readonly done: boolean;
}

/** Asks for a kept backup, by its file's name, at the next start; null takes that back. */
export function askToRestore(folder: string, backup: string | null): void {
  withStoreErrors(() => {
    if (backup === null) return rmSync(pathIn(folder), { force: true });
    const partial = `${pathIn(folder)}.partial`;
    writeFileSync(partial, JSON.stringify({ backup }), { mode: 0o600 });
    renameDurably(partial, pathIn(folder));
  });
}

/** The name of the backup that the next start puts back, or null. */
export function askedToRestore(folder: string): string | null {
  if (!existsSync(pathIn(folder))) return null;
  try {
    return askedSchema.parse(JSON.parse(readFileSync(pathIn(folder), "utf8"))).backup;
  } catch {
    // What cannot be understood asks for nothing.
    return null;
  }
}

/**
 * Puts the backup back that was asked for, if any. Asked once, tried once: a request that stayed would
 * take away at each start what was recorded since.
 *
 * @returns null when nothing was asked for
 * @throws StoreError `folder-taken`
 */
export function restoreAsked(folder: string, nowMs: number): Restored | null {
  if (!existsSync(pathIn(folder))) return null;
  const lock = lockFolder(folder);
  try {
    const backup = askedToRestore(folder);
    askToRestore(folder, null);
    const path = listBackups(folder).find((each) => basename(each.path) === backup)?.path;
    if (backup === null || path === undefined) return null;
    try {
      restoreLocked(folder, path, nowMs);
      return { backup, done: true };
    } catch (error) {
      if (!(error instanceof StoreError)) throw error;
      return { backup, done: false };
    }
  } finally {
    lock.release();
  }
}
