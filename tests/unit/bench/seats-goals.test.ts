import { expect, it } from "vitest";
import { missedGoals, missedOwnGoals } from "../../bench/seats/goals.ts";

const marks = ["a 1", "a 2", "b 1", "b 2"];
const met = { seats: 2, cues: 2, marks, tripP99Ms: 99.9 };

it("a room misses its goals by an answer lost, one doubled, and slow ones up to 200 seats", () => {
  expect(missedGoals(met)).toEqual([]);
  expect(missedGoals({ ...met, marks: marks.slice(1) })).toEqual(["2 seats: answers lost: 1"]);
  // One lost and one doubled do not make up for each other.
  expect(missedGoals({ ...met, marks: [...marks.slice(1), "b 1"] })).toHaveLength(2);
  expect(missedGoals({ ...met, tripP99Ms: 100 })).toEqual([
    "2 seats: p99 100.0 ms, not under 100 ms",
  ]);
  expect(missedGoals({ ...met, tripP99Ms: Number.NaN })).toHaveLength(1);
  const large = { seats: 500, cues: 0, marks: [], tripP99Ms: 900 };
  expect(missedGoals(large)).toEqual([]);
  expect(missedGoals({ ...large, seats: 200 })).toHaveLength(1);
});

it("own cues miss theirs by one told otherwise, one counted as missing, and late ones", () => {
  const well = { wrong: 0, missing: 0, lateP99Ms: 99.9 };
  expect(missedOwnGoals(well)).toEqual([]);
  expect(missedOwnGoals({ wrong: 1, missing: 2, lateP99Ms: 100 })).toEqual([
    "own cues: told otherwise than shown: 1",
    "own cues: wrongly counted as missing: 2",
    "own cues: p99 100.0 ms after due, not under 100 ms",
  ]);
  expect(missedOwnGoals({ ...well, lateP99Ms: Number.NaN })).toHaveLength(1);
});
