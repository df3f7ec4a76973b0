import { existsSync, rmSync } from "node:fs";
import Database from "better-sqlite3";

/**
 * Copies a database file and takes something out of the copy, so that no page, journal or temporary file of
 * it keeps what was taken out. The copied file stays as it is.
 *
 * @param partial where the copy is made; it must not be there yet
 * @param clean takes out of the copy what may not be in it
 * @throws what SQLite throws, such as for a full disk
 */
export function copyClean(
  path: string,
  partial: string,
  clean: (copy: Database.Database) => void,
): void {
  const source = new Database(path, { readonly: true, fileMustExist: true });
  try {
    source.prepare("VACUUM INTO ?").run(partial);
  } finally {
    source.close();
  }
  const copy = new Database(partial);
  try {
    copy.pragma("journal_mode = MEMORY");
    copy.pragma("secure_delete = ON");
    copy.pragma("temp_store = MEMORY");
    clean(copy);
    copy.exec("VACUUM");
  } finally {
    copy.close();
  }
  if (existsSync(`${partial}-journal`)) rmSync(`${partial}-journal`);
}
