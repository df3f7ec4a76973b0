import { rmSync } from "node:fs";
import type Database from "better-sqlite3";
import { v7 } from "uuid";
import { listBackups, listDamaged, removePartials } from "../file/backup.ts";
import { inTransaction } from "../file/in-transaction.ts";
import {
  cleanBackup,
  compact,
  eraseFrom,
  forgetStatistics,
  nameIn,
  nameOf,
  refuseWithoutRoom,
  withErasureOpen,
} from "./erase.ts";
import { forgetErased, rememberErased } from "./erased-ids.ts";
import { forgetGroupChoices, removeGroupRecords } from "./group-records.ts";
import { hasTable } from "./has-table.ts";

/** What the erasure of a group removed. */
export interface ErasedGroup {
  readonly students: number;
  readonly sessions: number;
  /** Backups that held a trace and were cleaned, or removed because they were no use to anybody. */
  readonly backups: number;
}

/** The names that each student of a group has or had, by id. */
type Names = ReadonlyMap<string, ReadonlySet<string>>;

/**
 * Removes every trace of a group: its students as `eraseStudent` does, with all that they have from other
 * groups too, then its sessions, plans, phases, privileges, teams and pairs, and the group; all of it from
 * kept backups too. Who has moved to another group stays there, without the sessions held here.
 *
 * Backups come first: if this is cut short, the group is still listed and can be erased again.
 *
 * @returns null when there is no such group
 * @throws StoreError `full` before anything is changed, where that can be told
 */
export function eraseGroup(
  database: Database.Database,
  folder: string,
  groupId: string,
): ErasedGroup | null {
  if (!hasGroup(database, groupId)) return null;
  removePartials(folder);
  refuseWithoutRoom(folder);
  const kept = listBackups(folder);
  const names: Names = new Map(
    studentsOf(database, groupId).map((id) => {
      const earlier = kept.flatMap(({ path }) => nameIn(path, id) ?? []);
      return [id, new Set([nameOf(database, id) ?? "", ...earlier])];
    }),
  );
  const holds = (backup: Database.Database) =>
    hasGroup(backup, groupId) || [...names.keys()].some((id) => nameOf(backup, id) !== null);
  const backups = kept.filter(({ path }) =>
    cleanBackup(path, holds, (copy) => eraseGroupFrom(copy, groupId, names)),
  );
  for (const path of listDamaged(folder)) rmSync(path, { force: true });
  const sessions = eraseFromLive(database, folder, { groupId, names });
  return { students: names.size, sessions, backups: backups.length };
}

/** With notes for restored files, which stand if and only if the group is gone. */
function eraseFromLive(
  database: Database.Database,
  folder: string,
  { groupId, names }: { readonly groupId: string; readonly names: Names },
): number {
  const ids = [...names.keys(), groupId];
  for (const id of ids) rememberErased(folder, id);
  try {
    const sessions = eraseGroupFrom(database, groupId, names);
    compact(database);
    return sessions;
  } catch (error) {
    if (hasGroup(database, groupId)) for (const id of ids) forgetErased(folder, id);
    throw error;
  }
}

/**
 * Removes a group from a database of any released version.
 *
 * @param names whom to erase with it, where they are; a student of the database's group who is not among
 *   them has moved on since, and stays in a group without a name
 * @returns how many sessions were removed
 */
export function eraseGroupFrom(database: Database.Database, groupId: string, names: Names): number {
  return inTransaction(database, () => {
    for (const [id, called] of names) eraseFrom(database, id, called);
    return withErasureOpen(database, () => {
      if (!hasGroup(database, groupId)) return 0;
      const sessions = count(database, "SELECT count(*) FROM session WHERE group_id = ?", groupId);
      moveTheRest(database, groupId);
      keepWhatOthersBought(database, groupId);
      removeGroupRecords(database, groupId);
      forgetImports(database, groupId);
      forgetGroupChoices(database, groupId);
      forgetStatistics(database);
      database.prepare("DELETE FROM student_group WHERE id = ?").run(groupId);
      return sessions;
    });
  });
}

/** Not under the erased id: what is found under it is erased again. */
function moveTheRest(database: Database.Database, groupId: string): void {
  if (studentsOf(database, groupId).length === 0) return;
  const id = v7({ msecs: 0 });
  const { columns } = database
    .prepare<[], { columns: string }>(
      "SELECT group_concat(name) AS columns FROM pragma_table_info('student_group') WHERE name NOT IN ('id', 'name', 'target')",
    )
    .get() ?? { columns: "" };
  database
    .prepare(
      `INSERT INTO student_group (id, name, target, ${columns})
       SELECT @id, '–', '', ${columns} FROM student_group WHERE id = @groupId`,
    )
    .run({ id, groupId });
  database
    .prepare("UPDATE student SET group_id = @id WHERE group_id = @groupId")
    .run({ id, groupId });
}

/** What somebody bought who is in another group now stays in their ledger, as a privilege of that group. */
function keepWhatOthersBought(database: Database.Database, groupId: string): void {
  if (!hasTable(database, "privilege")) return;
  const buyers = `SELECT student.group_id FROM ledger_entry
    JOIN student ON student.number = ledger_entry.student_number
    WHERE ledger_entry.privilege_id = privilege.id AND student.group_id <> @groupId`;
  database
    .prepare(
      `UPDATE privilege SET group_id = (${buyers} LIMIT 1), archived_ms = ifnull(archived_ms, 0)
       WHERE group_id = @groupId AND EXISTS (${buyers})`,
    )
    .run({ groupId });
}

function forgetImports(database: Database.Database, groupId: string): void {
  if (!hasTable(database, "record_import")) return;
  const ofGroup = "(SELECT id FROM record_import WHERE group_id = ?)";
  database
    .prepare(`UPDATE student SET import_id = NULL WHERE import_id IN ${ofGroup}`)
    .run(groupId);
  database.prepare("DELETE FROM record_import WHERE group_id = ?").run(groupId);
}

const studentsOf = (database: Database.Database, groupId: string): string[] =>
  database
    .prepare<[string], string>("SELECT id FROM student WHERE group_id = ?")
    .pluck()
    .all(groupId);

const hasGroup = (database: Database.Database, groupId: string): boolean =>
  count(database, "SELECT count(*) FROM student_group WHERE id = ?", groupId) > 0;

const count = (database: Database.Database, sql: string, id: string): number =>
  Number(database.prepare(sql).pluck().get(id));
