/** What a summary needs of a ledger's line. */
export interface SummedLine {
  readonly studentId: string;
  readonly day: string;
  readonly source: string;
  readonly rule: string;
  readonly amount: number;
}

/** One student's ledger, added up; in points. */
export interface LedgerSummary {
  readonly studentId: string;
  readonly balance: number;
  /** Earned and given, less what was taken back; without what was there at first. */
  readonly given: number;
  readonly taken: number;
  /** Given for each point taken; null when nothing was taken. */
  readonly ratio: number | null;
  readonly spent: number;
  /** Days on which anything came in, and the mean of such a day; null when there is none. */
  readonly days: number;
  readonly incomeADay: number | null;
}

/**
 * Balances, ratios and income of every student in a ledger, in the order of their first lines.
 *
 * Example: ledgerSummaries([{ studentId, day, source: "press", rule: "given", amount: 3 }])[0].balance // 3
 */
export function ledgerSummaries(lines: readonly SummedLine[]): LedgerSummary[] {
  const byStudent = new Map<string, SummedLine[]>();
  for (const line of lines) {
    const own = byStudent.get(line.studentId);
    if (own === undefined) byStudent.set(line.studentId, [line]);
    else own.push(line);
  }
  return [...byStudent].map(([studentId, own]) => summaryOf(studentId, own));
}

function summaryOf(studentId: string, lines: readonly SummedLine[]): LedgerSummary {
  let [balance, given, taken, spent] = [0, 0, 0, 0];
  const days = new Set<string>();
  for (const { source, rule, amount, day } of lines) {
    balance += amount;
    if (rule === "taken") taken -= amount;
    else if (rule === "exchange") spent -= amount;
    else if (source !== "opening") {
      given += amount;
      if (amount > 0) days.add(day);
    }
  }
  return {
    studentId,
    balance,
    given,
    taken,
    ratio: taken === 0 ? null : given / taken,
    spent,
    days: days.size,
    incomeADay: days.size === 0 ? null : (given - taken) / days.size,
  };
}
