import {
  weekRateStatements,
  weekStatement,
} from "../../../shared/analysis/statements/week-statement.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";
import { anyGoal, clearGoal, conditions, correlations, coverGoal } from "./conditions.ts";
import { finds, holds, saysAny, saysClear, type Table, tally } from "./outcomes.ts";
import { type CalibrationRow, rowsUnder } from "./row.ts";
import { simulateRecord } from "./simulate.ts";

/** Week against week of a steady student, each week's rate, and a fall of twenty points in the newest week. */
export const weekTable: Table = (replicates) =>
  conditions.flatMap((condition) =>
    [10, 20].flatMap((sessions) =>
      correlations.flatMap((r): CalibrationRow[] => {
        const of = `${sessions} sessions of ${condition.name}, r ${r}`;
        const draw = randomStream("calibration week", of);
        const { mean, unusual } = condition;
        const record = (fall: number) =>
          simulateRecord(
            { ...condition, sessions, r, rate: (at) => mean - (at >= sessions - 5 ? fall : 0) },
            draw,
          );
        const share = tally(replicates, () => {
          const steady = record(0);
          const week = weekStatement(steady);
          const [newest] = weekRateStatements(steady).slice(-1);
          return {
            clear: saysClear(week),
            any: saysAny(week),
            covers: holds(week, 0),
            rate:
              newest !== undefined && holds({ kind: "enough", ...newest }, expectedRate(condition)),
            found: finds(weekStatement(record(0.2)), "down"),
          };
        });
        const row = rowsUnder(of, replicates, share);
        return [
          row("week change of a steady student: clear", "clear", clearGoal(r, unusual)),
          row("week change of a steady student: probable or clear", "any", anyGoal(r, unusual)),
          row("week change: interval holds no change", "covers", coverGoal(r, unusual)),
          row("week's rate: interval holds the true one", "rate", coverGoal(r, unusual)),
          row("week change: a fall of 20 points found clearly", "found", null),
        ];
      }),
    ),
  );

/** Marks are missing three times as often off task, so that the marked rate is higher than the true one. */
export function expectedRate({
  mean,
  missing = 0,
}: {
  readonly mean: number;
  readonly missing?: number | undefined;
}): number {
  const on = mean * (1 - 0.6 * missing);
  const off = (1 - mean) * (1 - 1.8 * missing);
  return on / (on + off);
}
