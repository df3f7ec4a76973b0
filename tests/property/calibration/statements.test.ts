import { describe, expect, it } from "vitest";
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
