import { trendStatement } from "../../../shared/analysis/statements/trend-statement.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";
import { anyGoal, clearGoal, conditions, correlations, coverGoal } from "./conditions.ts";
import { holds, saysAny, saysClear, type Table, tally } from "./outcomes.ts";
import { type CalibrationRow, rowsUnder } from "./row.ts";
import { simulateRecord } from "./simulate.ts";

const rise = 0.1;

/** Trend of a steady student, and of one who rises ten points over the record. */
export const trendTable: Table = (replicates) =>
  conditions.flatMap((condition) =>
    [10, 20, 40].flatMap((sessions) =>
      correlations.flatMap((r): CalibrationRow[] => {
        const of = `${sessions} sessions of ${condition.name}, r ${r}`;
        const draw = randomStream("calibration trend", of);
        const record = (change: number) =>
          simulateRecord(
            {
              ...condition,
              sessions,
              r,
              rate: (at) => condition.mean + change * (at / (sessions - 1) - 0.5),
            },
            draw,
          );
        // The true slope in points a week: from the first session to the last in calendar days.
        const days = Math.floor((sessions - 1) / 5) * 7 + ((sessions - 1) % 5);
        const truth = (rise * 700) / days;
        const share = tally(replicates, () => {
          const steady = trendStatement(record(0));
          const rising = trendStatement(record(rise));
          return {
            clear: saysClear(steady),
            any: saysAny(steady),
            covers: holds(steady, 0),
            rising: holds(rising, truth),
          };
        });
        const { unusual } = condition;
        const row = rowsUnder(of, replicates, share);
        return [
          row("trend of a steady student: clear", "clear", clearGoal(r, unusual)),
          row("trend of a steady student: probable or clear", "any", anyGoal(r, unusual)),
          row("trend: interval holds no change", "covers", coverGoal(r, unusual)),
          row("trend: interval holds a rise of 10 points", "rising", coverGoal(r, unusual)),
        ];
      }),
    ),
  );
