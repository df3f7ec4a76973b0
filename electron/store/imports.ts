import type Database from "better-sqlite3";
import type { Imported } from "../../shared/api/transfer.ts";
import type { Connection } from "./connection.ts";
import { rememberNumbers, studentColumns, withErasureOpen } from "./erasing/erase.ts";
import { inTransaction } from "./file/in-transaction.ts";
import { newId } from "./new-id.ts";
import { importedPhase, recordImport } from "./tables.ts";

/** One student's records of one kind in one imported session. */
export interface ImportedRecord {
  readonly studentId: string;
  /** Wall clock, ms since 1970 UTC. */
  readonly startedMs: number;
  readonly source: "self" | "observer";
}

/** What an undo removed. */
export interface Undone {
  readonly groupId: string;
  readonly sessions: number;
  readonly students: number;
  readonly phases: number;
}

/** Batches of earlier records that were brought in, each to be undone as one. */
export function importRepository({ bare, typed }: Connection) {
  const ofGroup = bare.prepare<[string], Imported>(
    `SELECT id AS importId, imported_ms AS importedMs,
       (SELECT count(*) FROM session WHERE import_id = record_import.id) AS sessions,
       (SELECT count(*) FROM student WHERE import_id = record_import.id) AS studentsAdded,
       (SELECT count(*) FROM imported_phase WHERE import_id = record_import.id) AS phasesAdded
     FROM record_import WHERE group_id = ? ORDER BY imported_ms DESC, id DESC`,
  );
  const importedRecords = bare.prepare<[string], ImportedRecord>(
    `SELECT DISTINCT student.id AS studentId, started_ms AS startedMs,
       iif(event.kind = 'total', 'self', 'observer') AS source
     FROM session
     JOIN session_event AS event ON event.session_number = session.number
       AND (event.kind = 'total' AND event.way = 'import' OR event.kind = 'observed')
     JOIN student ON student.number = event.student_number
     WHERE session.group_id = ? AND session.import_id IS NOT NULL`,
  );

  return {
    /** A new import into a group; sessions and students are then made with its id. */
    create(groupId: string, nowMs: number): string {
      const id = newId(nowMs);
      typed
        .insert(recordImport)
        .values({ id, groupId, importedMs: Math.round(nowMs) })
        .run();
      return id;
    },

    /** Remembers that a phase came with an import, so that an undo takes it back. */
    rememberPhase(importId: string, phaseId: string): void {
      typed.insert(importedPhase).values({ importId, phaseId }).run();
    },

    /** Newest first. */
    list: (groupId: string): Imported[] => ofGroup.all(groupId),

    /** Whose records of which kind and time were imported into a group so far. */
    records: (groupId: string): ImportedRecord[] => importedRecords.all(groupId),
  };
}
export type Imports = ReturnType<typeof importRepository>;

/**
 * Removes what an import brought: its sessions with all that is in them, also what was typed in later,
 * its phases, and the students it added for whom nothing is kept elsewhere. That a student was set aside in another
 * session is no record and does not hold the student back.
 *
 * @returns null when there is no such import
 */
export function undoImport(database: Database.Database, importId: string): Undone | null {
  return inTransaction(database, () =>
    withErasureOpen(database, () => {
      const groupId = database
        .prepare<[string], string>("SELECT group_id FROM record_import WHERE id = ?")
        .pluck()
        .get(importId);
      if (groupId === undefined) return null;
      const run = (sql: string) => database.prepare(sql).run(importId).changes;
      run(`DELETE FROM session_event WHERE session_number IN
        (SELECT number FROM session WHERE import_id = ?)`);
      const sessions = run("DELETE FROM session WHERE import_id = ?");
      const phases = run(`DELETE FROM phase WHERE id IN
        (SELECT phase_id FROM imported_phase WHERE import_id = ?)`);
      const added = database
        .prepare<[string], StudentKey>("SELECT number, id FROM student WHERE import_id = ?")
        .all(importId);
      const gone = added.filter((student) => !isKeptElsewhere(database, student));
      for (const student of gone) removeStudent(database, student);
      run("UPDATE student SET import_id = NULL WHERE import_id = ?");
      run("DELETE FROM record_import WHERE id = ?");
      return { groupId, sessions, students: gone.length, phases };
    }),
  );
}

interface StudentKey {
  readonly number: number;
  readonly id: string;
}

function isKeptElsewhere(database: Database.Database, { number, id }: StudentKey): boolean {
  return studentColumns(database).some(({ table, column }) => {
    const passing = table === "session_event" ? "AND kind NOT IN ('set-aside', 'back')" : "";
    const kept = database
      .prepare(`SELECT 1 FROM ${table} WHERE ${column} = ? ${passing} LIMIT 1`)
      .get(column === "student_id" ? id : number);
    return kept !== undefined;
  });
}

function removeStudent(database: Database.Database, { number }: StudentKey): void {
  rememberNumbers(database, number);
  database.prepare("DELETE FROM session_event WHERE student_number = ?").run(number);
  database.prepare("DELETE FROM student WHERE number = ?").run(number);
}
