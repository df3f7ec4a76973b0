import { type NotComputable, notComputable } from "../../statistics/computed.ts";
import { mean } from "../../statistics/moments.ts";
import type { DayPoint } from "./trend.ts";

export interface RandomizationTest {
  readonly kind: "computed";
  /** Mean from the start day on, less mean before it, in the points' unit. */
  readonly difference: number;
  /** Share of permitted start days that give at least this difference upward. */
  readonly probability: number;
  /** Share that give at least this difference in either direction. */
  readonly twoSidedProbability: number;
  /** Permitted start days; no probability can be below one over this. */
  readonly permitted: number;
}

export type RandomizationReason =
  /** The start day is not one of those it was drawn from, so the test does not apply. */
  | "start-not-permitted"
  /** With one permitted day nothing was drawn. */
  | "nothing-drawn"
  /** A permitted start day would leave no point before it, or none from it on. */
  | "start-leaves-phase-empty";

/**
 * Exact randomization test for a program whose start day was drawn at random, each permitted day
 * equally likely. Under "the start made no difference" every permitted day was as likely to give the
 * difference seen, so the probability is a plain count; it is exact whatever the trend, the spread or
 * the likeness of neighbouring sessions.
 *
 * Points are in any order. A permitted day without a session still counts as its own start day. Valid
 * only when the days were fixed before the draw and the draw was kept.
 *
 * Source: Edgington ES (1975) Journal of Psychology 90:57-68, randomly drawn point of intervention.
 */
export function randomizationTest(
  points: readonly DayPoint[],
  permittedStarts: readonly number[],
  start: number,
): RandomizationTest | NotComputable<RandomizationReason> {
  const permitted = [...new Set(permittedStarts)];
  if (!permitted.includes(start)) return notComputable("start-not-permitted");
  if (permitted.length < 2) return notComputable("nothing-drawn");

  const differences: number[] = [];
  for (const day of permitted) {
    const difference = differenceAt(points, day);
    if (difference === undefined) return notComputable("start-leaves-phase-empty");
    differences.push(difference);
  }
  const seen = differences[permitted.indexOf(start)] ?? 0;
  const share = (counts: (difference: number) => boolean) =>
    differences.filter(counts).length / permitted.length;
  // Sums in another order may differ in the last digit; a tie must stay a tie.
  const slack = 1e-9 * Math.max(1, Math.abs(seen));
  return {
    kind: "computed",
    difference: seen,
    probability: share((difference) => difference >= seen - slack),
    twoSidedProbability: share((difference) => Math.abs(difference) >= Math.abs(seen) - slack),
    permitted: permitted.length,
  };
}

function differenceAt(points: readonly DayPoint[], start: number): number | undefined {
  const before = points.filter(({ day }) => day < start).map(({ value }) => value);
  const after = points.filter(({ day }) => day >= start).map(({ value }) => value);
  return before.length === 0 || after.length === 0 ? undefined : mean(after) - mean(before);
}
