import { phaseStatement } from "../../../shared/analysis/statements/phase-statement.ts";
import { rateStatement } from "../../../shared/analysis/statements/rate-statement.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";
import { anyGoal, clearGoal, conditions, correlations, coverGoal } from "./conditions.ts";
import { finds, holds, saysAny, saysClear, type Table, tally } from "./outcomes.ts";
import { type CalibrationRow, rowsUnder } from "./row.ts";
import { simulateRecord } from "./simulate.ts";
import { expectedRate } from "./week.ts";

/** Two phases of a steady student, of one who rises or falls, and of one whose rate should hold. */
export const phasesTable: Table = (replicates) =>
  conditions.flatMap((condition) =>
    [3, 5, 10, 20].flatMap((each) =>
      correlations.flatMap((r): CalibrationRow[] => {
        const of = `${each} v ${each} sessions of ${condition.name}, r ${r}`;
        const draw = randomStream("calibration phases", of);
        const { mean, unusual } = condition;
        const record = (change: number) =>
          simulateRecord(
            {
              ...condition,
              sessions: 2 * each,
              r,
              rate: (at) => Math.min(0.99, mean + (at < each ? -change / 2 : change / 2)),
            },
            draw,
          );
        const compared = (change: number, wanted: "up" | "held") => {
          const held = record(change);
          return phaseStatement(held.slice(0, each), held.slice(each), wanted);
        };
        const share = tally(replicates, () => {
          const steady = record(0);
          const change = phaseStatement(steady.slice(0, each), steady.slice(each), "up");
          const fell = compared(-0.1, "held");
          const rate = expectedRate(condition);
          return {
            clear: saysClear(change),
            any: saysAny(change),
            covers: holds(change, 0),
            phase: holds(rateStatement([steady.slice(each)]), rate),
            overall: holds(rateStatement([steady]), rate),
            found: finds(compared(0.2, "up"), "up"),
            held: fell.kind === "enough" && fell.outcome === "as-wanted",
          };
        });
        const row = rowsUnder(of, replicates, share);
        const power = unusual || r > 0 ? undefined : { 10: 0.6, 20: 0.94 }[each];
        return [
          row("phases of a steady student: clear", "clear", clearGoal(r, unusual)),
          row("phases of a steady student: probable or clear", "any", anyGoal(r, unusual)),
          row("phase difference: interval holds no change", "covers", coverGoal(r, unusual)),
          row("phase's rate: interval holds the true one", "phase", coverGoal(r, unusual)),
          row("overall rate: interval holds the true one", "overall", coverGoal(r, unusual)),
          row(
            "phases: a change of 20 points found clearly",
            "found",
            power === undefined ? null : { atLeast: power },
          ),
          row(
            "phases: held, after a fall of all of the 10 points",
            "held",
            unusual ? null : { atMost: r === 0.6 ? 0.09 : 0.05 },
          ),
        ];
      }),
    ),
  );
