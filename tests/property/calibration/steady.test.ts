import { expect, it } from "vitest";
import { isSteady, steadyPointsPerWeek } from "../../../shared/analysis/statements/steady.ts";
import { trendStatement } from "../../../shared/analysis/statements/trend-statement.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";
import { simulateRecord } from "../../bench/calibration/simulate.ts";

const replicates = 400;
const sessions = 180;
const weeks = sessions / 5;

/** How many of the records of a school year, five sessions of ten cues a week, are called steady. */
function calledSteady(pointsPerWeek: number, mean: number, r: number): number {
  const draw = randomStream("calibration steady", `${pointsPerWeek} ${mean} ${r}`);
  let called = 0;
  for (let at = 0; at < replicates; at += 1) {
    const record = simulateRecord(
      {
        sessions,
        cues: 10,
        r,
        rate: (session) => mean + (pointsPerWeek / 100) * (session / 5 - weeks / 2),
      },
      draw,
    );
    const trend = trendStatement(record);
    if (trend.kind === "enough" && isSteady(trend)) called += 1;
  }
  return called / replicates;
}

// Two one-sided tests at the 95 % interval: Schuirmann DJ (1987), Journal of Pharmacokinetics and
// Biopharmaceutics 15, 657-680 (from memory). One case of twenty, and one of eleven where neighbors are much
// alike, as the interval itself promises; at four standard errors.
it.each([
  [steadyPointsPerWeek, 0.7, 0, 0.05],
  [-steadyPointsPerWeek, 0.7, 0, 0.05],
  [steadyPointsPerWeek, 0.7, 0.3, 0.05],
  [-steadyPointsPerWeek, 0.6, 0.6, 0.09],
])(
  "a rate that changes by %d points a week, about %d, r %d, is seldom called steady",
  (change, mean, r, goal) => {
    const most = goal + 4 * Math.sqrt((goal * (1 - goal)) / replicates);
    expect(calledSteady(change, mean, r)).toBeLessThanOrEqual(most);
  },
);

it("a rate that does not change is mostly called steady after a school year", () => {
  expect(calledSteady(0, 0.7, 0)).toBeGreaterThan(0.7);
});
