import { chmodSync, lstatSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { StoreError, withStoreErrors } from "./store-error.ts";

/** Everything that the app itself puts into a data folder. */
const ours =
  /^(pebblechime[\w.-]*|lock\.sqlite[\w-]*|running\.json(\.partial)?|(erased|restore-next)\.json(\.partial)?|backups|window|open-[\w-]*\.html)$/;
/** Permissions of the group and of everybody else. */
const others = 0o077;
const othersWrite = 0o022;

/**
 * Takes away from other users what the app's files in a data folder allow them, and the folder too where
 * nothing but ours lies in it: a folder that also serves something else is not ours to close.
 *
 * @returns whether others can still change what is in the folder
 */
export function tighten(folder: string): boolean {
  // Windows has no such modes: a folder there has the rights of the one around it.
  if (process.platform === "win32") return false;
  const names = readdirSync(folder);
  for (const name of names) if (ours.test(name)) close(join(folder, name));
  const backups = join(folder, "backups");
  if (names.includes("backups") && lstatSync(backups).isDirectory()) {
    for (const name of readdirSync(backups)) close(join(backups, name));
  }
  if (names.every((name) => ours.test(name))) close(folder);
  return (lstatSync(folder).mode & othersWrite) !== 0;
}

function close(path: string): void {
  const { mode, uid } = lstatSync(path);
  const isLink = (mode & 0o170000) === 0o120000;
  if (isLink || (mode & others) === 0 || uid !== process.getuid?.()) return;
  try {
    withStoreErrors(() => chmodSync(path, mode & 0o700));
  } catch (error) {
    // A disk that cannot be written or knows no modes; whether that matters the folder's mode tells.
    if (!(error instanceof StoreError)) throw error;
  }
}
