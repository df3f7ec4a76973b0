import type Database from "better-sqlite3";
import { eraseFrom, nameOf } from "./erase.ts";
import { eraseGroupFrom } from "./erase-group.ts";
import { erasedAmong } from "./erased-ids.ts";

/**
 * Erases again whoever was erased from this folder and came back with a restored file, groups too. For a
 * database of any released version.
 *
 * @returns how many there were
 */
export function eraseReturned(database: Database.Database, folder: string): number {
  const ids = erasedAmong(database, folder, "student");
  for (const id of ids) eraseFrom(database, id, new Set([nameOf(database, id) ?? ""]));
  const groupIds = erasedAmong(database, folder, "student_group");
  for (const id of groupIds) eraseGroupFrom(database, id, new Map());
  return ids.length + groupIds.length;
}
