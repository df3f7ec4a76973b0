import seedrandom from "seedrandom";
import { expect, test } from "vitest";
import { createClockMap } from "../../../src/sound/clock-map.ts";

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

test("jitter of several ms leaves the map within one ms, with the clocks drifting apart", () => {
  const draw = seedrandom("clock-map");
  const map = createClockMap();
  // 100 parts in a million: the worst a sound device's clock is commonly off.
  const trueOffset = (pageMs: number) => 7000 + pageMs * 1e-4;
  for (let pageMs = 0; pageMs <= 600_000; pageMs += 250) {
    const jitter = (draw() - 0.5) * 8;
    map.add({ pageMs: pageMs + jitter, audioSeconds: (pageMs - trueOffset(pageMs)) / 1000 });
    if (pageMs < 10_000 || pageMs % 10_000 !== 0) continue;
    const due = pageMs + 2000;
    const mapped = map.audioSecondsAt(due) ?? Number.NaN;
    expect(Math.abs(mapped * 1000 - (due - trueOffset(due)))).toBeLessThan(2.5);
  }
});

test("a single wild pair is not believed, three in a row are", () => {
  const map = createClockMap();
  for (let second = 0; second < 5; second++) {
    expect(map.add({ audioSeconds: second, pageMs: second * 1000 })).toBe(false);
  }
  const wild = (second: number) => ({ audioSeconds: second, pageMs: second * 1000 + 60 });
  expect(map.add(wild(5))).toBe(false);
  expect(map.pageMsAt(10)).toBe(10_000);
  expect(map.add({ audioSeconds: 6, pageMs: 6000 })).toBe(false);
  expect(map.add(wild(7))).toBe(false);
  expect(map.add(wild(8))).toBe(false);
  expect(map.add(wild(9))).toBe(true);
  expect(map.pageMsAt(10)).toBe(10_060);
});

test("a jump, as after sleep, is believed at once", () => {
  const map = createClockMap();
  map.add({ audioSeconds: 1, pageMs: 1000 });
  expect(map.add({ audioSeconds: 1.1, pageMs: 61_100 })).toBe(true);
  expect(map.pageMsAt(2)).toBe(62_000);
});
