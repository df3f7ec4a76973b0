import type { Counts } from "../record/session-count.ts";
import type { Share } from "../statistics/newcombe.ts";
import { type Interval, notEnough, type Result } from "../statistics/result.ts";
import { wilsonInterval } from "../statistics/wilson.ts";
import { designEffect } from "./dispersion.ts";
import { addCounts, marked } from "./rate.ts";

export interface PooledRate {
  readonly rate: number;
  readonly interval: Interval;
  /** Sessions with at least one mark, and their marks. */
  readonly sessions: number;
  readonly marks: number;
  readonly designEffect: number;
}

export interface PoolOptions {
  readonly confidence?: number;
  /** A design effect known from more sessions than these; estimated from these when absent. */
  readonly designEffect?: number;
}

/**
 * On-task rate of a day, a week or a phase: all marks pooled, with Wilson's interval on the counts
 * divided by the design effect (an effective sample size). Sources: see `designEffect` and
 * `wilsonInterval`.
 */
export function pooledRate(
  sessions: readonly Counts[],
  options: PoolOptions = {},
): Result<PooledRate> {
  const total = addCounts(sessions);
  const marks = marked(total);
  if (marks === 0) return notEnough("no-marks", 0, 1);
  const effect = options.designEffect ?? designEffect([sessions]).designEffect;
  const share = dispersedShare(total, effect);
  return {
    kind: "enough",
    rate: total.on / marks,
    interval: wilsonInterval(share.on, share.total, options.confidence),
    sessions: sessions.filter((counts) => marked(counts) > 0).length,
    marks,
    designEffect: effect,
  };
}

/** Counts shrunk to the number of independent marks they are worth. Throws RangeError below 1. */
export function dispersedShare(counts: Counts, effect: number): Share {
  if (!(effect >= 1 && Number.isFinite(effect))) {
    throw new RangeError(`effect must be 1 or more; got ${effect}.`);
  }
  return { on: counts.on / effect, total: marked(counts) / effect };
}
