import { expect, it } from "vitest";
import { sortByStops } from "../../bench/sound/stops.ts";

// The sound bench stops the program and wakes it; these hold which sounds it lays to that.

const sleeps = [{ stoppedMs: 10_000, wokeMs: 22_000 }];
const sort = (heardMs: number[], dueMs: number[]) =>
  sortByStops(heardMs, (heard) => heard, dueMs, sleeps, 1_100);

it("leaves sounds far from any stop as they are", () => {
  expect(sort([5_000, 30_000], [5_010, 30_010])).toEqual({
    whole: [5_000, 30_000],
    cutOff: [],
    pieces: [],
    late: [],
  });
});

it("knows a chime that a stop cut, and its rest on waking", () => {
  expect(sort([9_500, 22_010], [9_510])).toEqual({
    whole: [],
    cutOff: [9_500],
    pieces: [22_010],
    late: [],
  });
});

it("counts a cue at its moment just after waking as heard", () => {
  expect(sort([22_400], [22_410]).whole).toEqual([22_400]);
});

it("tells a cue that was due on waking and began late from a remainder", () => {
  expect(sort([22_500], [22_050])).toEqual({
    whole: [],
    cutOff: [],
    pieces: [],
    late: [{ dueMs: 22_050, lateMs: 450 }],
  });
});
