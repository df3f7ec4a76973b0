import { expect, it } from "vitest";
import { agreementTable } from "../../bench/calibration/agreement.ts";
import { missedBy } from "../../bench/calibration/row.ts";

// The short form of the table that `npm run bench:calibration` prints: fewer replicates, wider limits.

it("keeps what is promised of record and observation, at four standard errors", () => {
  const rows = agreementTable(400);
  const missed = rows.filter((row) => missedBy(row) > 4);
  expect(missed).toEqual([]);
  expect(rows.filter(({ goal }) => goal !== null).length).toBeGreaterThan(20);
});

it("never lets the checks of a student who always says on become rarer", () => {
  const always = agreementTable(400).filter(
    ({ condition, statement }) => condition.startsWith("always on") && /thin/.test(statement),
  );
  expect(always).toHaveLength(10);
  for (const { condition, share } of always) expect(share, condition).toBeLessThanOrEqual(0.05);
});
