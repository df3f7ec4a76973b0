/** What the ledger holds of one session, student and rule. */
export interface Paid {
  /** The worth that the newest entry brought the ledger to; 0 when there is none. */
  readonly due: number;
  /** Its revision; 0 when there is none. */
  readonly revision: number;
  /** What was left unpaid or unclaimed so far, so that no balance fell below zero. */
  readonly forgiven: number;
}

/** What settling writes: the difference, and how much of it was forgiven. */
export interface Payment {
  readonly due: number;
  readonly revision: number;
  readonly amount: number;
  readonly forgiven: number;
}

export const nothingPaid: Paid = { due: 0, revision: 0, forgiven: 0 };

/**
 * What brings the ledger from what was paid to what the log is worth now; null when that is so already.
 *
 * Only the difference moves. What was spent already is never owed: a fall that the balance cannot bear is
 * forgiven, and a later rise first makes good what was forgiven. So amounts add up to the newest due plus
 * all that is still forgiven, and no balance goes below zero.
 *
 * Example: settle({ due: 8, revision: 1, forgiven: 0 }, 5, 2) // { due: 5, revision: 2, amount: -2, forgiven: 1 }
 *
 * @param balance the student's balance now, 0 or more
 * @throws RangeError when due or balance is not a whole number from 0 up.
 */
export function settle(paid: Paid, due: number, balance: number): Payment | null {
  for (const [name, value] of Object.entries({ due, balance })) {
    if (Number.isInteger(value) && value >= 0) continue;
    throw new RangeError(`${name} must be a whole number from 0 up; got ${value}.`);
  }
  const difference = due - paid.due;
  if (difference === 0) return null;
  const revision = paid.revision + 1;
  if (difference > 0) {
    const madeGood = Math.min(paid.forgiven, difference);
    return {
      due,
      revision,
      amount: difference - madeGood,
      forgiven: madeGood === 0 ? 0 : -madeGood,
    };
  }
  return { due, revision, ...takenBack(-difference, balance) };
}

/**
 * Takes an amount off a balance, as far as it reaches; the rest is forgiven.
 *
 * Example: takenBack(3, 2) // { amount: -2, forgiven: 1 }
 */
export function takenBack(amount: number, balance: number): { amount: number; forgiven: number } {
  const taken = Math.min(amount, balance);
  return { amount: taken === 0 ? 0 : -taken, forgiven: amount - taken };
}
