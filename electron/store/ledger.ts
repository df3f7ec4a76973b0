import { type GivenTaken, sessionsLately } from "../../shared/points/guard.ts";
import type { Paid } from "../../shared/points/settle.ts";
import type { WorthRule } from "../../shared/points/worth.ts";
import type { Connection } from "./connection.ts";
import { newId } from "./new-id.ts";

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

/** What a session paid by a rule, with the sum of its entries. */
export interface PaidInAll extends Paid {
  readonly amount: number;
}

/** A student's points: all, and those of one day. */
export interface Purse {
  readonly studentId: string;
  readonly balance: number;
  readonly earnedToday: number;
  readonly spentToday: number;
}

const entries = `SELECT entry.number, entry.id, student.id AS studentId, source, source_key AS sourceKey,
    rule, revision, amount, due, forgiven, day, wall_ms AS wallMs, offset_minutes AS offsetMinutes,
    reverses, privilege_id AS privilegeId,
    EXISTS (SELECT 1 FROM ledger_entry AS later WHERE later.reverses = entry.number) AS reversed
  FROM ledger_entry AS entry JOIN student ON student.number = entry.student_number`;

type Row = Omit<LedgerEntry, "reversed"> & { readonly reversed: number };
const toEntry = (row: Row): LedgerEntry => ({ ...row, reversed: row.reversed === 1 });

/** Points: entries that are only ever added. A balance is their sum, and never below zero. */
export function ledgerRepository({ bare }: Connection) {
  const insert = bare.prepare<[Required<NewEntry> & { readonly id: string }]>(
    `INSERT INTO ledger_entry (id, student_number, source, source_key, rule, revision, amount, due,
       forgiven, day, wall_ms, offset_minutes, reverses, privilege_id)
     VALUES (@id, (SELECT number FROM student WHERE id = @studentId), @source, @sourceKey, @rule,
       @revision, @amount, @due, @forgiven, @day, @wallMs, @offsetMinutes, @reverses, @privilegeId)`,
  );
  const balance = bare
    .prepare<[string], number>(
      `SELECT ifnull(sum(amount), 0) FROM ledger_entry
       WHERE student_number = (SELECT number FROM student WHERE id = ?)`,
    )
    .pluck();
  // The bare column `due` is that of the row with the greatest revision, as SQLite documents for max().
  const paid = bare.prepare<
    [LedgerSource, string, string],
    PaidInAll & { readonly rule: LedgerRule }
  >(
    `SELECT rule, max(revision) AS revision, due, sum(forgiven) AS forgiven, sum(amount) AS amount FROM ledger_entry
     WHERE source = ? AND source_key = ?
       AND student_number = (SELECT number FROM student WHERE id = ?)
     GROUP BY rule`,
  );
  const paidTogether = bare.prepare<[SharedRule, string, string], PaidInAll>(
    `SELECT max(revision) AS revision, due, sum(forgiven) AS forgiven, sum(amount) AS amount FROM ledger_entry
     WHERE source = 'team' AND rule = ? AND source_key = ?
       AND student_number = (SELECT number FROM student WHERE id = ?)
     GROUP BY rule`,
  );
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
  const purses = bare.prepare<[string, string, string], Purse>(
    `SELECT student.id AS studentId, ifnull(sum(amount), 0) AS balance,
       ifnull(sum(amount) FILTER (WHERE day = ? AND rule <> 'exchange'), 0) AS earnedToday,
       ifnull(-sum(amount) FILTER (WHERE day = ? AND rule = 'exchange'), 0) AS spentToday
     FROM student LEFT JOIN ledger_entry AS entry ON entry.student_number = student.number
     WHERE group_id = ? AND archived_ms IS NULL
     GROUP BY student.number ORDER BY position, student.number`,
  );
  const sums = `SELECT
      ifnull(sum(amount) FILTER (WHERE rule NOT IN ('taken', 'exchange') AND source <> 'opening'), 0) AS given,
      ifnull(-sum(amount) FILTER (WHERE rule = 'taken'), 0) AS taken
    FROM ledger_entry WHERE student_number = (SELECT number FROM student WHERE id = ?)`;
  const ofDay = bare.prepare<[string, string], GivenTaken>(`${sums} AND day = ?`);
  const since = bare.prepare<[string, number], GivenTaken>(`${sums} AND wall_ms >= ?`);
  const latelyFrom = bare
    .prepare<[string, number], number>(
      `SELECT started_ms FROM session, (SELECT number AS who, group_id AS room FROM student WHERE id = ?)
       WHERE group_id = room AND kind = 'seatwork' AND EXISTS (
         SELECT 1 FROM session_event WHERE session_number = session.number AND student_number = who
           AND kind IN ('mark', 'total', 'pluses'))
       ORDER BY started_ms DESC LIMIT 1 OFFSET ?`,
    )
    .pluck();
  const lastTake = bare
    .prepare<[string], number | null>(
      `SELECT max(wall_ms) FROM ledger_entry
       WHERE student_number = (SELECT number FROM student WHERE id = ?)
         AND source = 'press' AND rule = 'taken'`,
    )
    .pluck();
  const stopped = bare
    .prepare<[string, string], number>(
      `SELECT 1 FROM session JOIN session_event ON session_number = session.number
       WHERE day = ? AND session_event.kind = 'points-stopped'
         AND student_number = (SELECT number FROM student WHERE id = ?) LIMIT 1`,
    )
    .pluck();
  const settledSeq = bare
    .prepare<[string], number>(
      "SELECT seq FROM settled WHERE session_number = (SELECT number FROM session WHERE id = ?)",
    )
    .pluck();
  const follow = bare.prepare<[string, number]>(
    `INSERT INTO settled (session_number, seq)
     VALUES ((SELECT number FROM session WHERE id = ?), ?)
     ON CONFLICT (session_number) DO UPDATE SET seq = excluded.seq`,
  );
  const earning = `kind = 'seatwork' AND import_id IS NULL
    AND iif(json_valid(plan), ifnull(json_extract(plan, '$.earning.kind'), 'none'), 'none') <> 'none'`;
  const earningSessions = bare
    .prepare<[], string>(`SELECT id FROM session WHERE ${earning} ORDER BY started_ms DESC`)
    .pluck();
  const unsettled = bare
    .prepare<[], string>(
      `SELECT id FROM session LEFT JOIN settled ON session_number = session.number
       WHERE ${earning}
         AND (SELECT max(seq) FROM session_event WHERE session_number = session.number)
           > ifnull(settled.seq, 0)
       ORDER BY started_ms`,
    )
    .pluck();
  const isImported = bare
    .prepare<[string], number>("SELECT 1 FROM session WHERE id = ? AND import_id IS NOT NULL")
    .pluck();
  const spentOn = bare.prepare<[string, string], { studentId: string; times: number }>(
    `SELECT student.id AS studentId, count(*) AS times
     FROM ledger_entry AS entry JOIN student ON student.number = entry.student_number
     WHERE entry.day = ? AND privilege_id = ? AND source = 'exchange'
       AND NOT EXISTS (SELECT 1 FROM ledger_entry AS later WHERE later.reverses = entry.number)
     GROUP BY student.id`,
  );

  return {
    add(entry: NewEntry): void {
      const nothingElse = { due: null, forgiven: 0, reverses: null, privilegeId: null };
      const wallMs = Math.round(entry.wallMs);
      insert.run({ ...nothingElse, ...entry, wallMs, id: newId(wallMs) });
    },

    /** Points that a student has, 0 or more. */
    balance: (studentId: string): number => balance.get(studentId) ?? 0,

    /** What a session, or a closed day of a contract, paid a student so far, by rule. */
    paid: (
      source: "session" | "contract",
      sourceKey: string,
      studentId: string,
    ): ReadonlyMap<LedgerRule, PaidInAll> =>
      new Map(paid.all(source, sourceKey, studentId).map(({ rule, ...each }) => [rule, each])),

    /** What a team day or a lesson in pairs paid a student so far; null for nothing yet. */
    paidTogether: (rule: SharedRule, sourceKey: string, studentId: string): PaidInAll | null =>
      paidTogether.get(rule, sourceKey, studentId) ?? null,

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

    /** The points of a group's students, in their order. */
    purses: (groupId: string, day: string): Purse[] => purses.all(day, day, groupId),

    /** Given and taken on a day, less what was taken back. */
    givenTakenOn: (studentId: string, day: string): GivenTaken =>
      ofDay.get(studentId, day) ?? { given: 0, taken: 0 },

    /** Given and taken since the tenth newest seatwork session in which the student took part. */
    givenTakenLately(studentId: string): GivenTaken {
      const fromMs = latelyFrom.get(studentId, sessionsLately - 1) ?? 0;
      return since.get(studentId, fromMs) ?? { given: 0, taken: 0 };
    },

    /** Wall clock of the newest take, ms since 1970 UTC; null when nothing was ever taken. */
    lastTakeMs: (studentId: string): number | null => lastTake.get(studentId) ?? null,

    /** Whether an adult stopped taking from a student in a session of this day. */
    isStopped: (studentId: string, day: string): boolean =>
      stopped.get(day, studentId) !== undefined,

    /** How often each student had a privilege on a day. */
    timesHad: (privilegeId: string, day: string): ReadonlyMap<string, number> =>
      new Map(spentOn.all(day, privilegeId).map(({ studentId, times }) => [studentId, times])),

    /** The last event of a session that the ledger has followed; 0 for none. */
    settledSeq: (sessionId: string): number => settledSeq.get(sessionId) ?? 0,
    setSettled: (sessionId: string, seq: number): void => void follow.run(sessionId, seq),
    /** Sessions that earn and whose log is ahead of the ledger, oldest first. */
    unsettled: (): string[] => unsettled.all(),
    /** Sessions that earn, newest first. */
    earningSessions: (): string[] => earningSessions.all(),
    isImported: (sessionId: string): boolean => isImported.get(sessionId) !== undefined,
  };
}
export type Ledger = ReturnType<typeof ledgerRepository>;
