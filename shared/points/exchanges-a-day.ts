import { medianOf } from "./median.ts";

/** When something was exchanged. */
export interface ExchangeMoment {
  readonly day: string;
  readonly wallMs: number;
}

/** What comes within so long of the one before belongs to the same exchange. Common practice, no source. */
const togetherMs = 1_800_000;
/** Days with exchanges that are looked at. */
const daysCounted = 10;

/**
 * How often a group exchanges on a day: the median over the newest ten days with exchanges, at least 1.
 *
 * Example: exchangesADay([{ day, wallMs: 0 }, { day, wallMs: 7_200_000 }]) // 2
 */
export function exchangesADay(moments: readonly ExchangeMoment[]): number {
  const byDay = new Map<string, number[]>();
  for (const { day, wallMs } of moments) byDay.set(day, [...(byDay.get(day) ?? []), wallMs]);
  const newest = [...byDay].sort(([one], [other]) => (one < other ? -1 : 1)).slice(-daysCounted);
  const times = newest.map(([, each]) => timesOf(each.sort((one, other) => one - other)));
  return times.length === 0 ? 1 : Math.max(1, Math.floor(medianOf(times)));
}

const timesOf = (sorted: readonly number[]): number =>
  sorted.filter((wallMs, at) => wallMs - (sorted[at - 1] ?? Number.NEGATIVE_INFINITY) > togetherMs)
    .length;
