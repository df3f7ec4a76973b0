import { dayNumber, dayText } from "../../calendar/calendar.ts";
import type { SessionCount } from "../../record/session-count.ts";
import type { RandomStream } from "../../schedule/stream.ts";
import { logGamma } from "../../statistics/incomplete-beta.ts";
import { normalCdf } from "../../statistics/normal.ts";

/** An invented student whose truth is known, to see how often a statement about such a one is wrong. */
export interface SimulatedStudent {
  readonly sessions: number;
  readonly cues: number;
  /** True on-task rate at each session, 0 to 1. */
  readonly rate: (at: number) => number;
  /** Correlation of the observed rates of neighbouring sessions. */
  readonly r: number;
  /** Scatter between days: correlation of two marks of one session; 0 is independent marks. */
  readonly icc?: number;
  /** Share of cues without a mark, more often so when off task by this factor. */
  readonly missing?: number;
  /** Sessions a week, 5 when left out: one a day, and where they are more than 7 spread over five days. */
  readonly perWeek?: number;
  readonly firstDay?: string;
}

/**
 * A record whose sessions' counts have the wanted margin (binomial, or beta-binomial) and whose neighbours
 * are alike: normal scores of a first-order autoregression, turned into counts by the margin's quantiles.
 * The scores' correlation is chosen so that the counts have the wanted one.
 *
 * Source: Cario MC, Nelson BL (1996), "Autoregressive to anything", Operations Research Letters 19:51-58
 * (from memory).
 *
 * Example: simulateRecord({ sessions: 3, cues: 10, rate: () => 0.6, r: 0 }, draw).length // 3
 */
export function simulateRecord(student: SimulatedStudent, draw: RandomStream): SessionCount[] {
  const { sessions, cues, rate, r, icc = 0, missing = 0, perWeek = 5 } = student;
  const first = dayNumber(student.firstDay ?? "2024-09-02");
  const rho = r === 0 ? 0 : scoreCorrelation(r, cues, middleRate(student), icc);
  const fresh = Math.sqrt(1 - rho * rho);
  let score = normal(draw);
  return Array.from({ length: sessions }, (_, at) => {
    if (at > 0) score = rho * score + fresh * normal(draw);
    const count = quantile(normalCdf(score), cumulative(cues, rate(at), icc));
    let [on, off, unmarked] = [count, cues - count, 0];
    if (missing > 0) {
      // Three times as likely to be missing off task as on task.
      const keptOn = kept(on, missing * 0.6, draw);
      const keptOff = kept(off, missing * 1.8, draw);
      unmarked = on + off - keptOn - keptOff;
      [on, off] = [keptOn, keptOff];
    }
    const inWeek = at % perWeek;
    const dayOfWeek = perWeek > 7 ? Math.floor((5 * inWeek) / perWeek) : inWeek;
    const day = first + Math.floor(at / perWeek) * 7 + dayOfWeek;
    return {
      sessionId: `s${at}`,
      // Apart by a minute, so that sessions of one day keep their order.
      startedAt: day * 86_400_000 + 9 * 3_600_000 + (inWeek - dayOfWeek) * 60_000,
      day: dayText(day),
      on,
      off,
      missing: unmarked,
      source: "self" as const,
    };
  });
}

const middleRate = ({ sessions, rate }: SimulatedStudent): number => rate(Math.floor(sessions / 2));

const kept = (marks: number, share: number, draw: RandomStream): number => {
  let left = 0;
  for (let at = 0; at < marks; at += 1) if (draw() >= share) left += 1;
  return left;
};

/** A standard normal number. Source: Box GEP, Muller ME (1958), Annals of Mathematical Statistics 29:610. */
export const normal = (draw: RandomStream): number =>
  Math.sqrt(-2 * Math.log(1 - draw())) * Math.cos(2 * Math.PI * draw());

const tables = new Map<string, Float64Array>();

/** P(count <= k) for each k. */
function cumulative(cues: number, rate: number, icc: number): Float64Array {
  const p = Math.min(0.999, Math.max(0.001, Math.round(rate * 1000) / 1000));
  const key = `${cues} ${p} ${icc}`;
  const known = tables.get(key);
  if (known !== undefined) return known;
  const table = new Float64Array(cues + 1);
  let sum = 0;
  for (let k = 0; k <= cues; k += 1) {
    sum += Math.exp(logChoose(cues, k) + logShare(k, cues, p, icc));
    table[k] = sum;
  }
  tables.set(key, table);
  return table;
}

const logChoose = (n: number, k: number): number =>
  logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1);

function logShare(k: number, cues: number, p: number, icc: number): number {
  if (icc === 0) return k * Math.log(p) + (cues - k) * Math.log(1 - p);
  const worth = 1 / icc - 1;
  const [a, b] = [p * worth, (1 - p) * worth];
  return (
    logGamma(a + k) +
    logGamma(b + cues - k) -
    logGamma(a + b + cues) -
    (logGamma(a) + logGamma(b) - logGamma(a + b))
  );
}

function quantile(u: number, table: Float64Array): number {
  let k = 0;
  while (k < table.length - 1 && u > (table[k] ?? 1)) k += 1;
  return k;
}

const correlations = new Map<string, number>();

/** The normal scores' correlation at which the counts have correlation r. */
function scoreCorrelation(r: number, cues: number, p: number, icc: number): number {
  const key = `${r} ${cues} ${p.toFixed(3)} ${icc}`;
  const known = correlations.get(key);
  if (known !== undefined) return known;
  const shares = hermiteShares(cumulative(cues, p, icc));
  const at = (rho: number) =>
    shares.reduce((sum, share, index) => sum + share * rho ** (index + 1), 0);
  let [low, high] = [0, 0.999];
  for (let step = 0; step < 50; step += 1) {
    const middle = (low + high) / 2;
    if (at(middle) < r) low = middle;
    else high = middle;
  }
  correlations.set(key, low);
  return low;
}

/** Share of the count's variance that is in the Hermite polynomial of each degree from 1 on. */
function hermiteShares(table: Float64Array): number[] {
  const most = 12;
  const sums = new Float64Array(most + 1);
  const step = 0.005;
  for (let z = -7; z <= 7; z += step) {
    const density = (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * step;
    const count = quantile(normalCdf(z), table);
    let [before, now] = [0, 1];
    for (let degree = 0; degree <= most; degree += 1) {
      sums[degree] = (sums[degree] ?? 0) + density * count * now;
      // Normalised polynomials: He_{d+1} = (z He_d - sqrt(d) He_{d-1}) / sqrt(d + 1).
      [before, now] = [now, (z * now - Math.sqrt(degree) * before) / Math.sqrt(degree + 1)];
    }
  }
  const squares = Array.from(sums.slice(1), (sum) => sum * sum);
  const total = squares.reduce((sum, square) => sum + square, 0);
  return squares.map((square) => square / total);
}
