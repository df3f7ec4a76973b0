/** Work done in one session: completed over assigned items, 0 to 1. */
export type WorkShare = number;

/** Work done lately and before. Shares of the assigned items, 0 to 1. */
export interface WorkTrend {
  readonly now: number;
  readonly before: number;
}

/** Sessions on each side, and how much less is a fall. Common practice, no source. */
const workRule = { newest: 3, fewestBefore: 3, mostBefore: 10, fall: 0.1 } as const;

/**
 * Work done in the newest three sessions with work written down beside the ten before them; null with
 * fewer than three on either side. The mean of sessions, oldest first.
 *
 * Example: workTrend([0.9, 0.8, 0.9, 0.7, 0.6, 0.5]) // { now: 0.6, before: 0.87 }
 */
export function workTrend(shares: readonly WorkShare[]): WorkTrend | null {
  const newest = shares.slice(-workRule.newest);
  const before = shares.slice(0, -workRule.newest).slice(-workRule.mostBefore);
  if (newest.length < workRule.newest || before.length < workRule.fewestBefore) return null;
  return { now: mean(newest), before: mean(before) };
}

/**
 * Whether less of the work gets done than before, by ten percentage points or more: then no cues are taken
 * away, however much the student is at work, because work done is the aim and looking busy is not.
 *
 * Example: workFalls({ now: 0.6, before: 0.87 }) // true
 */
export function workFalls(work: WorkTrend | null): boolean {
  return work !== null && work.before - work.now >= workRule.fall - 1e-9;
}

const mean = (shares: readonly number[]): number =>
  shares.reduce((total, share) => total + share, 0) / shares.length;
