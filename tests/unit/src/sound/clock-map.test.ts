import seedrandom from "seedrandom";
import { expect, test } from "vitest";
import { createClockMap } from "../../../../src/sound/clock-map.ts";

test("knows nothing before the first pair, and forgets when reset", () => {
  const map = createClockMap();
  expect(map.audioSecondsAt(1000)).toBeNull();
  expect(map.pageMsAt(1)).toBeNull();
  map.add({ audioSeconds: 1, pageMs: 5000 });
  expect(map.pageMsAt(2)).toBe(6000);
  map.reset();
  expect(map.pageMsAt(2)).toBeNull();
});

test("one pair maps both ways", () => {
  const map = createClockMap();
  map.add({ audioSeconds: 10, pageMs: 25_000 });
  expect(map.audioSecondsAt(26_500)).toBe(11.5);
  expect(map.pageMsAt(11.5)).toBe(26_500);
});

test("jitter is smoothed to less than a third, with the clocks drifting apart", () => {
  const draw = seedrandom("clock-map");
  const map = createClockMap();
  // 100 parts in a million: more than ten times what the sound bench found of one sink.
  const trueOffset = (pageMs: number) => 7000 + pageMs * 1e-4;
  let raw = 0;
  let smoothed = 0;
  for (let pageMs = 0; pageMs <= 600_000; pageMs += 80) {
    const jitter = (draw() - 0.5) * 8;
    map.add({ pageMs: pageMs + jitter, audioSeconds: (pageMs - trueOffset(pageMs)) / 1000 });
    const due = pageMs + 2000;
    const mapped = map.audioSecondsAt(due) ?? Number.NaN;
    raw += jitter ** 2;
    smoothed += (mapped * 1000 - (due - trueOffset(due))) ** 2;
  }
  // The median of nine uniform draws has 12/44 of the variance of one (order statistics of the
  // uniform: Beta(5, 5), variance 1/44, against 1/12); the drift adds next to nothing.
  expect(smoothed / raw).toBeCloseTo(12 / 44, 1);
});

test("up to four wild pairs are not believed, a clock that fell behind is after five", () => {
  const map = createClockMap();
  for (let second = 0; second < 5; second++) {
    expect(map.add({ audioSeconds: second, pageMs: second * 1000 })).toBe(false);
  }
  const behind = (second: number) => ({ audioSeconds: second, pageMs: second * 1000 + 60 });
  for (const second of [5, 6, 7, 8]) map.add(behind(second));
  expect(map.pageMsAt(10)).toBe(10_000);
  map.add(behind(9));
  expect(map.pageMsAt(10)).toBe(10_060);
});

test("a jump, as after sleep, is believed at once", () => {
  const map = createClockMap();
  map.add({ audioSeconds: 1, pageMs: 1000 });
  expect(map.add({ audioSeconds: 1.1, pageMs: 61_100 })).toBe(true);
  expect(map.pageMsAt(2)).toBe(62_000);
});
