import type Database from "better-sqlite3";
import type { WorthRule } from "../../../shared/points/worth.ts";

/** Where an entry comes from; `source_key` is the id of the session, press, contract day, team day or lesson. */
export type LedgerSource =
  | "session"
  | "press"
  | "contract"
  | "team"
  | "exchange"
  | "reversal"
  | "opening";
/** What an entry is for: a rule of a session's worth, or what an adult or the student did. */
export type LedgerRule = WorthRule | SharedRule | "given" | "taken" | "exchange";
/** What is earned together: by a team that met its goal, or by a pair that corrected its papers. */
export type SharedRule = "team" | "pair";

export interface NewEntry {
  readonly studentId: string;
  readonly source: LedgerSource;
  readonly sourceKey: string;
  readonly rule: LedgerRule;
  readonly revision: number;
  readonly amount: number;
  /** What the session is worth by this rule; left out, or null, for what is no session's. */
  readonly due?: number | null;
  /** 0 when left out. */
  readonly forgiven?: number;
  readonly day: string;
  readonly wallMs: number;
  readonly offsetMinutes: number;
  /** Number of the entry that this one takes back; left out, or null, where it takes back none. */
  readonly reverses?: number | null;
  /** What was bought; left out, or null, for nothing. */
  readonly privilegeId?: string | null;
}

export interface LedgerEntry extends Required<NewEntry> {
  readonly number: number;
  readonly id: string;
  /** Whether a later entry takes this one back. */
  readonly reversed: boolean;
}

const entries = `SELECT entry.number, entry.id, student.id AS studentId, source, source_key AS sourceKey,
    rule, revision, amount, due, forgiven, day, wall_ms AS wallMs, offset_minutes AS offsetMinutes,
    reverses, privilege_id AS privilegeId,
    EXISTS (SELECT 1 FROM ledger_entry AS later WHERE later.reverses = entry.number) AS reversed
  FROM ledger_entry AS entry JOIN student ON student.number = entry.student_number`;

type Row = Omit<LedgerEntry, "reversed"> & { readonly reversed: number };
const toEntry = (row: Row): LedgerEntry => ({ ...row, reversed: row.reversed === 1 });

/** The entries themselves, as they were written. */
export function ledgerEntries(bare: Database.Database) {
  const found = bare.prepare<[string, string, string], Row>(
    `${entries} WHERE source = ? AND source_key = ? AND student.id = ? ORDER BY revision DESC LIMIT 1`,
  );
  const ofStudent = bare.prepare<[string, number], Row>(
    `${entries} WHERE student.id = ? ORDER BY entry.number DESC LIMIT ?`,
  );
  const ofGroup = bare.prepare<[string, string], Row>(
    `${entries} WHERE student.group_id = ? AND entry.day >= ? ORDER BY entry.number`,
  );
  const allOf = bare.prepare<[string], Row>(
    `${entries} WHERE student.id = ? ORDER BY entry.number`,
  );
  const pageOf = bare.prepare<[string, number, number], Row>(
    `${entries} WHERE student.group_id = ? AND entry.number > ? ORDER BY entry.number LIMIT ?`,
  );

  return {
    find(source: LedgerSource, sourceKey: string, studentId: string): LedgerEntry | null {
      const row = found.get(source, sourceKey, studentId);
      return row === undefined ? null : toEntry(row);
    },

    /** Every entry of a student, in the order in which they were written. */
    allOf: (studentId: string): LedgerEntry[] => allOf.all(studentId).map(toEntry),

    /** Entries of a group's students, archived ones too, numbered above `after`; at most `limit`. */
    page: (groupId: string, after: number, limit: number): LedgerEntry[] =>
      pageOf.all(groupId, after, limit).map(toEntry),

    /** Newest first. */
    ofStudent: (studentId: string, limit: number): LedgerEntry[] =>
      ofStudent.all(studentId, limit).map(toEntry),

    /** The entries of a group's students from a day on, in the order in which they were written. */
    ofGroup: (groupId: string, fromDay = ""): LedgerEntry[] =>
      ofGroup.all(groupId, fromDay).map(toEntry),
  };
}
