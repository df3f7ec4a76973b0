import { kendall } from "./kendall.ts";
import { type MannKendall, mannKendall } from "./mann-kendall.ts";
import type { Result } from "./result.ts";
import { serialCorrelationFactor } from "./serial-correlation.ts";
import { type TheilSen, theilSen } from "./theil-sen.ts";
import { timePoints } from "./time-points.ts";

export interface SerialTrend {
  readonly kind: "enough";
  /** The line and its interval, in the values' unit per unit of time. */
  readonly line: TheilSen;
  readonly test: MannKendall;
}

/**
 * Theil-Sen's line and Mann-Kendall's test of values in order of time, both widened where neighbouring values
 * are alike once the line is taken off. The one trend of this program, for a record and for a phase.
 *
 * The widening helps and is not exact: where neighbours are strongly alike, a steady student is still said to
 * change somewhat more often than the level promises.
 *
 * Sources: see `theilSen`, `mannKendall`, `serialCorrelationFactor`.
 *
 * Example: serialTrend([0, 1, 2], [1, 2, 3]).kind // "enough"
 */
export function serialTrend(
  times: readonly number[],
  values: readonly number[],
): Result<SerialTrend> {
  const points = timePoints(times, values);
  const known = kendall(points);
  const line = theilSen(points, {
    kendall: known,
    varianceFactor: (slope) =>
      serialCorrelationFactor(values.map((value, at) => value - slope * (times[at] ?? 0))),
  });
  if (line.kind === "not-enough") return line;
  return { kind: "enough", line, test: mannKendall(points, line.varianceFactor, known) };
}
