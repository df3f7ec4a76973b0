import { describe, expect, it } from "vitest";
import { type ContextClock, clockPairOf } from "../../../../src/sound/clock-pair.ts";

/** When a sound that is rendered now is heard, in ms from now. */
const heardAfterMs = (clock: ContextClock, nowMs: number): number => {
  const { audioSeconds, pageMs } = clockPairOf(clock, nowMs);
  return (clock.currentTime - audioSeconds) * 1_000 + pageMs - nowMs;
};

/** As read in a page: time since the press, the context's clock, its timestamp, its latency. */
const at = (
  nowMs: number,
  currentTime: number,
  contextTime: number,
  aheadMs: number,
  outputLatency: number,
) => ({
  nowMs,
  clock: {
    currentTime,
    outputLatency,
    timestamp: { contextTime, performanceTime: nowMs + aheadMs },
  },
});

// Read from a page in Firefox ESR 153 and WebKitGTK 2.50 with a null sink of PulseAudio, November 2026. In
// recordings of the whole app there Firefox's chimes then began as long after the claimed moment as
// Chromium's, to 5 ms; WebKitGTK's were heard some 15 ms after they were rendered, in another rig 54 to 64 ms.
describe("what is heard now", () => {
  it("Firefox's timestamp leaves its latency out, which is put back", () => {
    for (const { nowMs, clock } of [
      at(1916, 0.915, 0.879, -35.5, 0.0355),
      at(2616, 1.624, 1.589, -35.5, 0.0355),
      at(5418, 4.421, 4.386, -35.5, 0.0355),
    ]) {
      expect(heardAfterMs(clock, nowMs)).toBeCloseTo(35.5, 1);
    }
  });

  it("WebKitGTK's timestamp runs ahead and its latency is 0; recorded were 15 to 64 ms", () => {
    for (const { nowMs, clock } of [
      at(205, 0.081, 0.078, 38, 0),
      at(1009, 0.081, 0.078, -766, 0),
      at(1211, 1.1, 1.097, 1073, 0),
      at(5416, 5.3, 5.297, 5271, 0),
    ]) {
      const heard = heardAfterMs(clock, nowMs);
      expect(heard).toBeGreaterThanOrEqual(15);
      expect(heard).toBeLessThanOrEqual(64);
    }
  });

  it("a timestamp that has the latency in it is taken as it is, but not in the first second", () => {
    const { nowMs, clock } = at(9_000, 5.1, 4.98, -60, 0.06);
    expect(clockPairOf(clock, nowMs)).toEqual({ audioSeconds: 4.98, pageMs: 8_940 });
    const young = at(9_000, 0.5, 0.38, -600, 0.06);
    expect(clockPairOf(young.clock, young.nowMs)).toEqual({ audioSeconds: 0.44, pageMs: 9_000 });
  });

  it("a timestamp from before a pause is not", () => {
    const { nowMs, clock } = at(60_000, 5.1, 5.0, -30_000, 0.04);
    expect(clockPairOf(clock, nowMs).pageMs).toBe(60_000);
  });
});
