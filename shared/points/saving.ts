import { medianOf } from "./median.ts";

/** One day of one student's points. */
export interface DayOfPoints {
  readonly day: string;
  /** Points given or earned, less what was taken back. */
  readonly given: number;
  readonly spent: number;
}

/** A student's purse and the days that filled it, oldest first. */
export interface SavedPurse {
  readonly studentId: string;
  readonly balance: number;
  readonly days: readonly DayOfPoints[];
}

/** Days over which saving is looked at, and days without any exchange that are shown. */
const daysLooked = 10;
const daysWithout = 3;

/**
 * How points are saved up: for how many days of earning the median purse would last, which share of the last
 * ten days' points was spent, and who had points and exchanged nothing on three days. Common practice to
 * look at more than 5 days or less than half spent; no source. Nulls and nobody before the third day.
 *
 * Example: savingOf([{ studentId, balance: 20, days }]).medianDays // 2.5
 */
export function savingOf(purses: readonly SavedPurse[]): {
  readonly medianDays: number | null;
  readonly spentShare: number | null;
  readonly notSpending: readonly string[];
} {
  const lately = purses.map((purse) => ({ ...purse, days: purse.days.slice(-daysLooked) }));
  const lasting = lately.flatMap(({ balance, days }) => {
    const given = sum(days, ({ given: each }) => each);
    return given > 0 ? [balance / (given / days.length)] : [];
  });
  const longest = Math.max(0, ...lately.map(({ days }) => days.length));
  // What one day or two brought and took says nothing of a habit.
  if (longest < daysWithout) return { medianDays: null, spentShare: null, notSpending: [] };
  const given = sum(lately, ({ days }) => sum(days, (day) => day.given));
  const spent = sum(lately, ({ days }) => sum(days, (day) => day.spent));
  return {
    medianDays: lasting.length === 0 ? null : medianOf(lasting),
    spentShare: given > 0 ? spent / given : null,
    notSpending: lately
      .filter(({ balance, days }) => {
        const last = days.slice(-daysWithout);
        return balance > 0 && last.length === daysWithout && last.every((day) => day.spent === 0);
      })
      .map(({ studentId }) => studentId),
  };
}

/** Whether the group saves more than it spends. Common practice, no source. */
export const savesTooMuch = (saving: {
  readonly medianDays: number | null;
  readonly spentShare: number | null;
}): boolean => (saving.medianDays ?? 0) > 5 || (saving.spentShare ?? 1) < 0.5;

const sum = <Each>(list: readonly Each[], value: (each: Each) => number): number =>
  list.reduce((total, each) => total + value(each), 0);
