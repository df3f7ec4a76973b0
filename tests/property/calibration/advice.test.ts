import { expect, it } from "vitest";
import { adviceTable } from "../../bench/calibration/advice.ts";
import { missedBy } from "../../bench/calibration/row.ts";

// The short form of the table that `npm run bench:calibration` prints: fewer replicates, wider limits.

it("seldom thins cues ten points under the goal, and seldom steps back ten above it", () => {
  const rows = adviceTable(400);
  expect(rows.filter((row) => missedBy(row) > 4)).toEqual([]);
  expect(rows.filter(({ goal }) => goal !== null)).toHaveLength(25);
  // And it does thin where the goal is well held: it is no rule that never says anything.
  for (const { condition, statement, share } of rows)
    if (/^(10|20) cues, r 0,.*90 %/.test(condition) && statement === "thinned within ten sessions")
      expect(share, condition).toBeGreaterThan(0.84);
});
