import { describe, expect, it } from "vitest";
import { simulateRecord } from "../../../shared/analysis/calibration/simulate-record.ts";
import { logOddsRatio } from "../../../shared/analysis/phases/log-odds-ratio.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";
import { classTable } from "../../bench/calibration/class.ts";
import { flagsTable } from "../../bench/calibration/flags.ts";
import { phasesTable } from "../../bench/calibration/phases.ts";
import { missedBy } from "../../bench/calibration/row.ts";
import { trendTable } from "../../bench/calibration/trend.ts";
import { weekTable } from "../../bench/calibration/week.ts";

// The short form of the tables that `npm run bench:calibration` prints: fewer replicates, wider limits, and
// the usual students only.
const replicates = 400;

describe("what is said of a student, at four standard errors", () => {
  it.each([
    ["trend", trendTable, 36],
    ["week", weekTable, 24],
    ["phases", phasesTable, 74],
    ["class", classTable, 24],
    ["flags", flagsTable, 6],
  ] as const)("%s keeps what is promised", (_name, table, promises) => {
    const rows = table(replicates, true);
    expect(rows.filter((row) => missedBy(row) > 4)).toEqual([]);
    expect(rows.filter(({ goal }) => goal !== null)).toHaveLength(promises);
  });
});

describe("the log odds ratio of few sessions", () => {
  it.each([3, 5, 10])("covers no change with Student's t, %i sessions a phase", (each) => {
    const draw = randomStream("calibration log odds", String(each));
    let [known, normal, small] = [0, 0, 0];
    for (let replicate = 0; replicate < 2_000; replicate += 1) {
      const rates = simulateRecord(
        { sessions: 2 * each, cues: 10, rate: () => 0.6, r: 0 },
        draw,
      ).map(({ on }) => on / 10);
      const found = logOddsRatio(rates.slice(0, each), rates.slice(each));
      if (found.kind !== "computed" || found.interval === null) continue;
      known += 1;
      if (found.interval.lower <= 0 && found.interval.upper >= 0) normal += 1;
      const { lower, upper } = found.smallSampleInterval ?? found.interval;
      if (lower <= 0 && upper >= 0) small += 1;
    }
    expect(small / known).toBeGreaterThan(0.94);
    // By the normal distribution it is too narrow where sessions are few.
    if (each === 3) expect(normal / known).toBeLessThan(0.91);
  });
});
