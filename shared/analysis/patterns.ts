import { dayNumber, weekdayOf } from "../calendar/calendar.ts";
import type { Counts, SessionCount } from "../record/session-count.ts";
import { criticalZ } from "../statistics/normal.ts";
import { type Interval, notEnough, type Result } from "../statistics/result.ts";
import { designEffect } from "./dispersion.ts";
import {
  clearConfidence,
  type Evidence,
  evidenceOfChange,
  probableConfidence,
} from "./evidence.ts";
import { addCounts, marked } from "./rate.ts";

/** A kind with fewer sessions than this is never said to stand out. */
const fewestSessionsForKind = 3;

export interface KindRate<Key> {
  readonly key: Key;
  readonly sessions: number;
  readonly counts: Counts;
  /** The rate as recorded, and the rate drawn towards the overall one by how little it rests on. */
  readonly rate: number;
  readonly shrunkRate: number;
  /** 95 % interval of the shrunk rate, within 0 to 1. */
  readonly interval: Interval;
  /** Whether the kind differs from the overall rate. */
  readonly evidence: Evidence;
}

export interface Pattern<Key> {
  readonly overall: number;
  /** Standard deviation between kinds that is left after chance is taken off, as a proportion. */
  readonly between: number;
  /** In ascending order of their key; never in order of rate. */
  readonly kinds: readonly KindRate<Key>[];
}

/** Local hour of the start, 0 to 23. Sessions without a known time are left out. */
export const hourPattern = (sessions: readonly SessionCount[]): Result<Pattern<number>> =>
  patternBy(sessions, (session) =>
    session.minuteOfDay === undefined ? null : Math.floor(session.minuteOfDay / 60),
  );

/** Weekday, 1 Monday to 7 Sunday. */
export const weekdayPattern = (sessions: readonly SessionCount[]): Result<Pattern<number>> =>
  patternBy(sessions, (session) => weekdayOf(dayNumber(session.day)));

/** Subject. Sessions without one are left out. */
export const subjectPattern = (sessions: readonly SessionCount[]): Result<Pattern<string>> =>
  patternBy(sessions, (session) => session.subject ?? null);

/**
 * Rates by kind of session, each drawn towards the overall rate (empirical Bayes), so that two lucky
 * sessions do not make a "best hour".
 *
 * The chance variance of a kind with N marks is D p (1-p) / N, with the overall rate p and the common
 * design effect D of sessions within kinds; the variance between kinds is the moment estimate of
 * DerSimonian and Laird. A kind keeps the share between / (between + chance) of its distance from the
 * overall rate. Its interval also carries the uncertainty of the overall rate. Evidence follows
 * `evidenceOfChange` and needs three sessions of the kind.
 *
 * Sources: Efron B, Morris C (1975), "Data analysis using Stein's estimator and its generalizations",
 * JASA 70:311-319; DerSimonian R, Laird N (1986), Controlled Clinical Trials 7:177-188.
 */
export function patternBy<Key extends string | number>(
  sessions: readonly SessionCount[],
  keyOf: (session: SessionCount) => Key | null,
): Result<Pattern<Key>> {
  const byKey = gather(sessions, keyOf);
  if (byKey.length < 2) return notEnough("few-kinds", byKey.length, 2);
  const totals = byKey.map(([key, list]) => ({ key, list, counts: addCounts(list) }));
  const all = addCounts(totals.map((kind) => kind.counts));
  const overall = all.on / marked(all);
  const effect = designEffect(byKey.map(([, list]) => list)).designEffect;
  const kinds = totals.map((kind) => ({
    ...kind,
    rate: kind.counts.on / marked(kind.counts),
    chance: (effect * overall * (1 - overall)) / marked(kind.counts),
  }));
  const between = betweenVariance(kinds);
  const centre = weightedMean(kinds, between);
  return {
    kind: "enough",
    overall,
    between: Math.sqrt(between),
    kinds: kinds.map(({ key, list, counts, rate, chance }) => {
      const keep = between === 0 ? 0 : between / (between + chance);
      const difference = keep * (rate - centre.mean);
      const error = Math.sqrt(keep * chance + (1 - keep) ** 2 * centre.variance);
      const around = (confidence: number, middle: number): Interval => ({
        lower: middle - criticalZ(confidence) * error,
        upper: middle + criticalZ(confidence) * error,
      });
      const shrunkRate = clamp(centre.mean + difference);
      const wide = around(clearConfidence, shrunkRate);
      return {
        key,
        sessions: list.length,
        counts,
        rate,
        shrunkRate,
        interval: { lower: clamp(wide.lower), upper: clamp(wide.upper) },
        evidence:
          list.length < fewestSessionsForKind || keep === 0
            ? "cannot-tell"
            : evidenceOfChange(
                around(clearConfidence, difference),
                around(probableConfidence, difference),
              ),
      };
    }),
  };
}

/** Sessions with marks by key, in ascending order of key. */
function gather<Key extends string | number>(
  sessions: readonly SessionCount[],
  keyOf: (session: SessionCount) => Key | null,
): [Key, SessionCount[]][] {
  const byKey = new Map<Key, SessionCount[]>();
  for (const session of sessions) {
    const key = keyOf(session);
    if (key === null || marked(session) === 0) continue;
    const list = byKey.get(key);
    if (list === undefined) byKey.set(key, [session]);
    else list.push(session);
  }
  return [...byKey].sort(([a], [b]) => (a < b ? -1 : 1));
}

interface Estimate {
  readonly rate: number;
  readonly chance: number;
}

/** DerSimonian-Laird variance between kinds; 0 when they differ no more than by chance. */
function betweenVariance(kinds: readonly Estimate[]): number {
  if (kinds.every((kind) => kind.chance === 0)) return 0;
  const weights = kinds.map((kind) => 1 / kind.chance);
  const sum = weights.reduce((a, b) => a + b, 0);
  const squares = weights.reduce((a, b) => a + b * b, 0);
  const { mean } = weightedMean(kinds, 0);
  const q = kinds.reduce((a, kind) => a + (kind.rate - mean) ** 2 / kind.chance, 0);
  return Math.max(0, (q - (kinds.length - 1)) / (sum - squares / sum));
}

function weightedMean(kinds: readonly Estimate[], between: number) {
  // With every mark alike there is no variance at all: all kinds then have the same rate.
  if (kinds.every((kind) => kind.chance === 0)) return { mean: kinds[0]?.rate ?? 0, variance: 0 };
  let sum = 0;
  let weighted = 0;
  for (const { rate, chance } of kinds) {
    sum += 1 / (chance + between);
    weighted += rate / (chance + between);
  }
  return { mean: weighted / sum, variance: 1 / sum };
}

const clamp = (rate: number): number => Math.min(1, Math.max(0, rate));
