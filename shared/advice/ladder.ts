/**
 * The rungs of support, from most to least. Only cueing has several steps of its own: dense cues first,
 * then thinner ones.
 *
 * Source of the order after cues (record without cues, then own praise without recording): Hallahan,
 * Lloyd, Kosiewicz, Kauffman & Graves (1979) Learning Disability Quarterly 2:24-32. Probes at the end:
 * common practice, no source.
 */
export const rungs = [
  "dense-cues",
  "thinner-cues",
  "recording-without-cues",
  "own-praise",
  "probes",
] as const;
export type Rung = (typeof rungs)[number];

/** Rungs after the last cue. */
const uncued = ["recording-without-cues", "own-praise", "probes"] as const;

/** Whether a rung still has cues. */
export const isCued = (rung: Rung): rung is "dense-cues" | "thinner-cues" =>
  rung === "dense-cues" || rung === "thinner-cues";

/** A ladder with so many steps of cueing, the densest included; at least 1. */
export interface Ladder {
  readonly cueSteps: number;
}

/** The highest place on a ladder; places count from 0, the densest cues. */
export function lastPlace({ cueSteps }: Ladder): number {
  return cueSteps + uncued.length - 1;
}

/** The rung at a place. Throws RangeError for a place that the ladder has not. */
export function rungAt(ladder: Ladder, place: number): Rung {
  if (!Number.isInteger(ladder.cueSteps) || ladder.cueSteps < 1)
    throw new RangeError(`cueSteps must be a whole number from 1; got ${ladder.cueSteps}.`);
  if (!Number.isInteger(place) || place < 0 || place > lastPlace(ladder))
    throw new RangeError(
      `place must be a whole number from 0 to ${lastPlace(ladder)}; got ${place}.`,
    );
  if (place === 0) return "dense-cues";
  return place < ladder.cueSteps ? "thinner-cues" : (uncued[place - ladder.cueSteps] ?? "probes");
}
