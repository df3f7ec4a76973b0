import type { Evidence } from "../../../shared/analysis/evidence.ts";
import type { Direction, Interval, NotEnough } from "../../../shared/statistics/result.ts";

import type { CalibrationRow } from "./row.ts";

interface Said {
  readonly kind: "enough";
  readonly interval: Interval;
  readonly direction: Direction;
  readonly evidence: Evidence;
}

type Found = Said | NotEnough;

/** Said with certainty; withheld counts as not said. */
export const saysClear = (found: Found): boolean =>
  found.kind === "enough" && found.evidence === "clear";

export const saysAny = (found: Found): boolean =>
  found.kind === "enough" && found.evidence !== "cannot-tell";

/** Clear in the right direction. */
export const finds = (found: Found, direction: Direction): boolean =>
  found.kind === "enough" && found.evidence === "clear" && found.direction === direction;

/** The interval holds the truth; withheld makes no false promise. */
export const holds = (
  found: { readonly kind: "enough"; readonly interval: Interval } | NotEnough,
  truth: number,
): boolean =>
  found.kind === "not-enough" || (found.interval.lower <= truth && truth <= found.interval.upper);

/** A table of the calibration: so many replicates a cell. */
export type Table = (replicates: number) => CalibrationRow[];

/** Counts how often each thing happens, as a share of the replicates. */
export function tally(replicates: number, happens: () => Readonly<Record<string, boolean>>) {
  const counts = new Map<string, number>();
  for (let replicate = 0; replicate < replicates; replicate += 1) {
    for (const [name, did] of Object.entries(happens())) {
      counts.set(name, (counts.get(name) ?? 0) + (did ? 1 : 0));
    }
  }
  return (name: string): number => (counts.get(name) ?? 0) / replicates;
}
