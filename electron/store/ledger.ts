import type { Paid } from "../../shared/points/settle.ts";
import type { Connection } from "./connection.ts";
import {
  type LedgerRule,
  type LedgerSource,
  ledgerEntries,
  type NewEntry,
  type SharedRule,
} from "./ledger/entries.ts";
import { givenAndTaken } from "./ledger/given-and-taken.ts";
import { settledSessions } from "./ledger/settled-sessions.ts";
import { newId } from "./new-id.ts";

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
  const purses = bare.prepare<[string, string, string], Purse>(
    `SELECT student.id AS studentId, ifnull(sum(amount), 0) AS balance,
       ifnull(sum(amount) FILTER (WHERE day = ? AND rule <> 'exchange'), 0) AS earnedToday,
       ifnull(-sum(amount) FILTER (WHERE day = ? AND rule = 'exchange'), 0) AS spentToday
     FROM student LEFT JOIN ledger_entry AS entry ON entry.student_number = student.number
     WHERE group_id = ? AND archived_ms IS NULL
     GROUP BY student.number ORDER BY position, student.number`,
  );
  const spentOn = bare.prepare<[string, string], { studentId: string; times: number }>(
    `SELECT student.id AS studentId, count(*) AS times
     FROM ledger_entry AS entry JOIN student ON student.number = entry.student_number
     WHERE entry.day = ? AND privilege_id = ? AND source = 'exchange'
       AND NOT EXISTS (SELECT 1 FROM ledger_entry AS later WHERE later.reverses = entry.number)
     GROUP BY student.id`,
  );

  return {
    ...ledgerEntries(bare),
    ...givenAndTaken(bare),
    ...settledSessions(bare),

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

    /** The points of a group's students, in their order. */
    purses: (groupId: string, day: string): Purse[] => purses.all(day, day, groupId),

    /** How often each student had a privilege on a day. */
    timesHad: (privilegeId: string, day: string): ReadonlyMap<string, number> =>
      new Map(spentOn.all(day, privilegeId).map(({ studentId, times }) => [studentId, times])),
  };
}
export type Ledger = ReturnType<typeof ledgerRepository>;
