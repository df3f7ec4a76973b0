import { z } from "zod";

/** Where a line comes from; `reversal` takes an earlier press or exchange back. */
const ledgerSources = [
  "session",
  "press",
  "contract",
  "team",
  "exchange",
  "reversal",
  "opening",
] as const;

/**
 * One entry of the ledger of points, as it leaves. A student's balance is the sum of `amount`; nothing is
 * ever changed, so a correction is a further line.
 */
export const ledgerLineSchema = z.strictObject({
  studentId: z.uuidv7(),
  /** Order in which the lines were written. */
  number: z.int().min(1),
  /** ISO 8601 with the school's own offset. */
  at: z.iso.datetime({ offset: true }),
  /** School-local day of the session, or of the press. */
  day: z.iso.date(),
  source: z.enum(ledgerSources),
  /** What it is for: mark, on, match, goal, work, timed; given, taken, exchange; team, pair. */
  rule: z.string().min(1).max(20),
  /** Points; below zero where they go. */
  amount: z.int(),
  /** What the session was worth by this rule then; null for what is no session's. */
  due: z.int().min(0).nullable(),
  /** What was not taken because it was spent already; below zero where that was made good. */
  forgiven: z.int(),
  /** What an exchange was for; null for all else. */
  privilege: z.string().nullable(),
});
export type LedgerLine = z.infer<typeof ledgerLineSchema>;
