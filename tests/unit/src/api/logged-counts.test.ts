import { expect, it } from "vitest";
import { sameNumber } from "../../../../src/api/logged-counts.ts";
import { groupCounts, session } from "../../shared/reading/builders.ts";

const counted = (number: number, on: number) => ({
  number,
  logged: groupCounts([session("one", "2026-09-01")], [{ self: [[on, 1, 0]] }]),
});

it("keeps number and object while the logs say the same, and takes the new ones when they do not", () => {
  const before = counted(1, 8);
  expect(sameNumber(before, counted(2, 8))).toBe(before);
  const after = sameNumber(before, counted(3, 9));
  expect(after).toMatchObject({ number: 3 });
  expect(sameNumber(undefined, before)).toBe(before);
});
