import { nothingPaid, settle } from "../../../shared/points/settle.ts";
import type { SharedRule } from "../../store/ledger/entries.ts";
import type { Ledger } from "../../store/ledger.ts";

/** What a team or a pair earned, for one of its students. */
export interface EarnedTogether {
  readonly rule: SharedRule;
  /** Id of the team day, or of the lesson. */
  readonly sourceKey: string;
  readonly studentId: string;
  /** What it is worth now, 0 or more. */
  readonly due: number;
  readonly day: string;
  readonly wallMs: number;
  readonly offsetMinutes: number;
}

/**
 * Brings the ledger to what was earned together: only the difference moves, so that a second press pays
 * nothing and a correction never leaves a balance below zero. To be called within a transaction.
 */
export function settleTogether(
  ledger: Pick<Ledger, "paidTogether" | "balance" | "add">,
  earned: EarnedTogether,
): void {
  const { rule, sourceKey, studentId, due, day, wallMs, offsetMinutes } = earned;
  const before = ledger.paidTogether(rule, sourceKey, studentId) ?? nothingPaid;
  const payment = settle(before, due, ledger.balance(studentId));
  if (payment === null) return;
  const when = { day, wallMs, offsetMinutes };
  const entry = { studentId, source: "team", sourceKey, rule } as const;
  ledger.add({ ...entry, ...payment, ...when });
}
