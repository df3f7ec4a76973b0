import { expect, it } from "vitest";
import { plannerTable } from "../../bench/calibration/planner.ts";
import { missedBy } from "../../bench/calibration/row.ts";

// The short form of the table that `npm run bench:calibration` prints: fewer replicates, wider limits.

it("promises sessions that suffice for the rule in use, and not many too many", () => {
  const rows = plannerTable(400);
  expect(rows.filter((row) => missedBy(row) > 4)).toEqual([]);
  expect(rows.length).toBeGreaterThan(8);
});
