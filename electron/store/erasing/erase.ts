import { rmSync, statfsSync, statSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import {
  databaseName,
  finishCopy,
  isProvenUseless,
  listBackups,
  listDamaged,
  removePartials,
} from "../file/backup.ts";
import { copyClean } from "../file/copy-clean.ts";
import { inTransaction } from "../file/in-transaction.ts";
import { StoreError, withStoreErrors } from "../file/store-error.ts";
import { blankTexts } from "./blank-texts.ts";
import { forgetErased, rememberErased } from "./erased-ids.ts";
import { removeGroupRecords } from "./group-records.ts";
import { hasTable } from "./has-table.ts";

/** What an erasure removed. */
export interface Erased {
  /** Session events of the student. */
  readonly events: number;
  /** Backups that held a trace and were cleaned, or removed because they were no use to anybody. */
  readonly backups: number;
}

/**
 * Removes every trace of a student: events, entries of points, phases, decisions, what was agreed, home
 * cards, contracts, places in teams and pairs, and the student; the name where the teacher's words about
 * their groups mention it as a word of its own, and names they had before as far as a kept backup knows
 * them; all of it from kept backups too. Files that a restore set aside are deleted, because damaged
 * files cannot be cleaned. Freed pages are overwritten and the write-ahead log is emptied, so that no file
 * of the folder holds the name.
 *
 * Backups come first: if this is cut short, the student is still listed and can be erased again. A
 * backup that the disk will not let us clean stays, and the erasure is refused.
 *
 * @returns null when there is no such student
 * @throws StoreError `full` before anything is changed, where that can be told
 */
export function eraseStudent(
  database: Database.Database,
  folder: string,
  studentId: string,
): Erased | null {
  const name = nameOf(database, studentId);
  if (name === null) return null;
  removePartials(folder);
  refuseWithoutRoom(folder);
  const kept = listBackups(folder);
  const names = new Set([name, ...kept.flatMap(({ path }) => nameIn(path, studentId) ?? [])]);
  const backups = kept.filter(({ path }) =>
    cleanBackup(
      path,
      (backup) => nameOf(backup, studentId) !== null,
      (copy) => eraseFrom(copy, studentId, names),
    ),
  );
  for (const path of listDamaged(folder)) rmSync(path, { force: true });
  const events = eraseFromLive(database, folder, { studentId, names });
  return { events, backups: backups.length };
}

/** With a note for restored files, which stands if and only if the student is gone. */
function eraseFromLive(
  database: Database.Database,
  folder: string,
  { studentId, names }: { readonly studentId: string; readonly names: ReadonlySet<string> },
): number {
  rememberErased(folder, studentId);
  try {
    const events = eraseFrom(database, studentId, names);
    compact(database);
    return events;
  } catch (error) {
    if (nameOf(database, studentId) !== null) forgetErased(folder, studentId);
    throw error;
  }
}

/** What is kept for single students and not through a session, what names others first. */
const ofStudents = [
  "agreed_answer",
  "student_paper",
  "family_words",
  "home_card_day",
  "home_card",
  "contract_day",
  "contract",
] as const;

/** Removes a group with all that belongs to it, from the live file only. */
export function removeGroup(database: Database.Database, groupId: string): { students: number } {
  const students = inTransaction(database, () =>
    withErasureOpen(database, () => {
      const run = (sql: string) => database.prepare(sql).run(groupId).changes;
      run(`DELETE FROM ledger_entry WHERE student_number IN
        (SELECT number FROM student WHERE group_id = ?)`);
      for (const table of ofStudents) {
        run(`DELETE FROM ${table} WHERE student_id IN (SELECT id FROM student WHERE group_id = ?)`);
      }
      removeGroupRecords(database, groupId);
      const removed = run("DELETE FROM student WHERE group_id = ?");
      run("DELETE FROM record_import WHERE group_id = ?");
      run("DELETE FROM student_group WHERE id = ?");
      return removed;
    }),
  );
  return { students };
}

/** Cleaning writes a copy of each file beside it, the live one's through the log. */
export function refuseWithoutRoom(folder: string): void {
  const paths = [join(folder, databaseName), ...listBackups(folder).map(({ path }) => path)];
  const largest = Math.max(...paths.map((path) => statSync(path).size));
  const { bavail, bsize, blocks } = statfsSync(folder);
  // A file system that knows no size says 0 of everything.
  if (blocks > 0 && bavail * bsize < 2 * largest) throw new StoreError("full");
}

/** Rewrites the file without its free pages and empties the write-ahead log. */
export function compact(database: Database.Database): void {
  database.pragma("wal_checkpoint(TRUNCATE)");
  try {
    withStoreErrors(() => database.exec("VACUUM"));
  } catch (error) {
    // What was erased is overwritten already; only the shrinking needs room.
    if (!(error instanceof StoreError) || error.problem !== "full") throw error;
  }
  database.pragma("wal_checkpoint(TRUNCATE)");
}

export function nameOf(database: Database.Database, studentId: string): string | null {
  const name: unknown = database
    .prepare("SELECT name FROM student WHERE id = ?")
    .pluck()
    .get(studentId);
  return typeof name === "string" ? name : null;
}

/**
 * Replaces a backup by a copy without what may not be in it; true when there was anything to remove.
 *
 * @param holds whether the backup has any of it
 * @throws StoreError when the disk is at fault (full, say); the backup is then as it was
 */
export function cleanBackup(
  path: string,
  holds: (backup: Database.Database) => boolean,
  clean: (copy: Database.Database) => void,
): boolean {
  try {
    return withStoreErrors(() => {
      if (!lookInto(path, holds)) return false;
      finishCopy(path, (partial) => copyClean(path, partial, clean));
      return true;
    });
  } catch (error) {
    if (!(error instanceof StoreError) || !isProvenUseless(path)) throw error;
    // What is broken cannot be cleaned, and would be no help in need.
    rmSync(path, { force: true });
    return true;
  }
}

/** What a student is called in a backup; null where they are not in it, or nobody can read it. */
export function nameIn(path: string, studentId: string): string | null {
  try {
    return withStoreErrors(() => lookInto(path, (backup) => nameOf(backup, studentId)));
  } catch (error) {
    // Cleaning it says what is wrong.
    if (error instanceof StoreError) return null;
    throw error;
  }
}

function lookInto<Found>(path: string, look: (backup: Database.Database) => Found): Found {
  const backup = new Database(path, { readonly: true, fileMustExist: true });
  try {
    return look(backup);
  } finally {
    backup.close();
  }
}

/**
 * Backups may be of any released version, so tables are found by what they have: whatever names a
 * student calls the column `student_id` or `student_number`.
 */
export function eraseFrom(
  database: Database.Database,
  studentId: string,
  names: ReadonlySet<string>,
): number {
  return inTransaction(database, () =>
    withErasureOpen(database, () => {
      const student = database
        .prepare<[string], { number: number; group_id: string }>(
          "SELECT number, group_id FROM student WHERE id = ?",
        )
        .get(studentId);
      if (student === undefined) return 0;
      for (const groupId of groupsOf(database, student)) blankTexts(database, groupId, names);
      rememberNumbers(database, student.number);
      forgetPutAside(database, studentId);
      let events = 0;
      for (const { table, column } of studentColumns(database)) {
        const key = column === "student_id" ? studentId : student.number;
        const { changes } = database.prepare(`DELETE FROM ${table} WHERE ${column} = ?`).run(key);
        if (table === "session_event") events = changes;
      }
      database.prepare("DELETE FROM student WHERE id = ?").run(studentId);
      forgetStatistics(database);
      return events;
    }),
  );
}

/** What waits on Today is put aside under a name that says whose agreement or contract it was about. */
function forgetPutAside(database: Database.Database, studentId: string): void {
  if (!hasTable(database, "put_aside")) return;
  database
    .prepare(
      `DELETE FROM put_aside WHERE instr(what, @studentId) > 0 OR EXISTS (
         SELECT 1 FROM contract WHERE student_id = @studentId AND instr(what, contract.id) > 0)`,
    )
    .run({ studentId });
}

/** The group a student is in, and those it was in before, where the database knows of moves. */
function groupsOf(
  database: Database.Database,
  { number, group_id }: { readonly number: number; readonly group_id: string },
): ReadonlySet<string> {
  const earlier = !hasTable(database, "stay")
    ? []
    : database
        .prepare<[number], string>("SELECT group_id FROM stay WHERE student_number = ?")
        .pluck()
        .all(number);
  return new Set([group_id, ...earlier]);
}

/** Every table that may say something of a student, with the column that names the student. */
export function studentColumns(database: Database.Database): { table: string; column: string }[] {
  return database
    .prepare<[], { table: string; column: string }>(
      `SELECT m.name AS "table", c.name AS "column"
       FROM sqlite_schema AS m JOIN pragma_table_info(m.name) AS c
       WHERE m.type = 'table' AND c.name IN ('student_id', 'student_number')`,
    )
    .all();
}

/** The query planner keeps samples of keys, ids among them; it makes new ones when it needs them. */
export function forgetStatistics(database: Database.Database): void {
  const tables = database
    .prepare<[], string>("SELECT name FROM sqlite_schema WHERE name GLOB 'sqlite_stat[0-9]'")
    .pluck()
    .all();
  for (const table of tables) database.exec(`DELETE FROM ${table}`);
}

/** The log never gives a number twice: watchers ask for what came after the last one they have. */
export function rememberNumbers(database: Database.Database, student: number): void {
  database
    .prepare(
      `UPDATE session SET erased_seq = max(erased_seq, erased.seq)
       FROM (SELECT session_number, max(seq) AS seq FROM session_event
             WHERE student_number = ? GROUP BY session_number) AS erased
       WHERE erased.session_number = session.number`,
    )
    .run(student);
}

/** Lets events be deleted while `work` runs; to be called within a transaction. */
export function withErasureOpen<Result>(database: Database.Database, work: () => Result): Result {
  database.exec("INSERT INTO erasure (open) VALUES (1)");
  const result = work();
  database.exec("DELETE FROM erasure");
  return result;
}
