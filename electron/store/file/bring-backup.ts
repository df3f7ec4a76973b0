import { mkdirSync, rmSync, statSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import type Database from "better-sqlite3";
import {
  backupEnding,
  backupFolder,
  finishCopy,
  listBackups,
  nameStamp,
  refuseNewer,
  removePartials,
  verifyBackup,
} from "./backup.ts";
import { copyClean } from "./copy-clean.ts";
import { withStoreErrors } from "./store-error.ts";

/** So many backups from elsewhere stay; where they came from they are still. Common practice, no source. */
const broughtKept = 3;

/** The moment that a backup's name tells, as in `pebblechime-copy-20260302T100000000Z`. */
const stampIn = /\d{8}T\d{9}Z/;

/**
 * Takes a backup from elsewhere, such as a stick, among the kept ones, so that it can be looked at and
 * restored like them. The file itself is only read.
 *
 * @param clean takes out what was erased from this folder after the copy was made
 * @returns the name under which it is kept
 * @throws StoreError `foreign`, `damaged` or `newer`; then nothing was changed
 */
export function bringBackup(
  folder: string,
  path: string,
  clean: (copy: Database.Database) => void,
): string {
  return withStoreErrors(() => {
    if (resolve(dirname(path)) === resolve(backupFolder(folder))) return basename(path);
    verifyBackup(path);
    refuseNewer(path);
    mkdirSync(backupFolder(folder), { recursive: true, mode: 0o700 });
    removePartials(folder);
    const [stamp] = stampIn.exec(basename(path)) ?? [nameStamp(statSync(path).mtimeMs)];
    const name = `${stamp}-brought.${backupEnding}`;
    finishCopy(join(backupFolder(folder), name), (partial) => copyClean(path, partial, clean));
    const brought = listBackups(folder).filter(({ kind }) => kind === "brought");
    const others = brought.filter(({ path: kept }) => basename(kept) !== name);
    for (const old of others.slice(broughtKept - 1)) rmSync(old.path, { force: true });
    return name;
  });
}
