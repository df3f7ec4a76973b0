import { readClass } from "../../../shared/analysis/statements/class-reading.ts";
import { addOverStudents } from "../../../shared/analysis/summary.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";
import { anyGoal, clearGoal, correlations } from "./conditions.ts";
import { saysAny, saysClear, type Table, tally } from "./outcomes.ts";
import { type CalibrationRow, rowsUnder } from "./row.ts";
import { simulateRecord } from "./simulate.ts";

/** A steady class of ten; `shared`: good and bad days that all have; `joins`: half come half-way, far lower. */
const classes = [
  { name: "ten students", shared: 0, joins: false, unusual: false },
  {
    name: "ten students with good and bad days in common",
    shared: 0.06,
    joins: false,
    unusual: true,
  },
  { name: "five at 85 % joined by five at 45 %", shared: 0, joins: true, unusual: false },
] as const;

const sessions = 20;

/** What is said of a class in which nobody changes. */
export const classTable: Table = (replicates) =>
  classes.flatMap(({ name, shared, joins, unusual }) =>
    correlations.flatMap((r): CalibrationRow[] => {
      const of = `${name}, ${sessions} sessions of 10 cues, r ${r}`;
      const draw = randomStream("calibration class", of);
      const share = tally(replicates, () => {
        const days = Array.from(
          { length: sessions },
          () => shared * Math.sqrt(3) * (2 * draw() - 1),
        );
        const members = Array.from({ length: 10 }, (_, at) => {
          const late = joins && at >= 5;
          const mean = joins ? (late ? 0.45 : 0.85) : 0.4 + 0.04 * at;
          const held = simulateRecord(
            { sessions, cues: 10, r, rate: (session) => mean + (days[session] ?? 0) },
            draw,
          );
          return { sessions: late ? held.slice(sessions / 2) : held, phases: [] };
        });
        const together = addOverStudents(
          members.map((member, at) => ({ studentId: String(at), sessions: member.sessions })),
        );
        const { trend, week } = readClass(members, [], together, null);
        return {
          trendClear: saysClear(trend),
          trendAny: saysAny(trend),
          weekClear: saysClear(week),
          weekAny: saysAny(week),
        };
      });
      const row = rowsUnder(of, replicates, share);
      return [
        row("class trend: clear", "trendClear", clearGoal(r, unusual)),
        row("class trend: probable or clear", "trendAny", anyGoal(r, unusual)),
        row("class week change: clear", "weekClear", clearGoal(r, unusual)),
        row("class week change: probable or clear", "weekAny", anyGoal(r, unusual)),
      ];
    }),
  );
