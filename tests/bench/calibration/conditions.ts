import type { CalibrationRow } from "./row.ts";
import type { SimulatedStudent } from "./simulate.ts";

type Goal = NonNullable<CalibrationRow["goal"]>;

/** Correlations of neighbouring sessions that the promises speak of. */
export const correlations = [0, 0.3, 0.6] as const;
export type Correlation = (typeof correlations)[number];

/** A kind of student; `unusual` ones are printed beside the promise. */
export interface Condition extends Pick<SimulatedStudent, "cues" | "icc" | "missing"> {
  readonly name: string;
  readonly mean: number;
  readonly unusual: boolean;
}

export const conditions: readonly Condition[] = [
  { name: "10 cues, 60 %", cues: 10, mean: 0.6, unusual: false },
  { name: "5 cues, 60 %", cues: 5, mean: 0.6, unusual: true },
  { name: "10 cues, 60 %, scatter between days", cues: 10, mean: 0.6, icc: 0.1, unusual: true },
  { name: "5 cues, 90 %, tied", cues: 5, mean: 0.9, unusual: true },
  { name: "10 cues, 95 %, near the ceiling", cues: 10, mean: 0.95, unusual: true },
  { name: "10 cues, 60 %, a tenth unmarked", cues: 10, mean: 0.6, missing: 0.1, unusual: true },
];

/** "Clearly" although nothing changed: 5, 5 and 9 %, and under twice as often for unusual students. */
export const clearGoal = (r: Correlation, unusual: boolean): Goal => ({
  atMost: (r === 0.6 ? 0.09 : 0.05) * (unusual ? 2 : 1),
});

/** "Probably" or stronger although nothing changed. */
export const anyGoal = (r: Correlation, unusual: boolean): Goal | null =>
  unusual ? null : { atMost: { 0: 0.15, 0.3: 0.2, 0.6: 0.27 }[r] };

/** A 95 % interval holds the truth. */
export const coverGoal = (r: Correlation, unusual: boolean): Goal | null =>
  unusual ? null : { atLeast: r === 0.6 ? 0.9 : 0.93 };
