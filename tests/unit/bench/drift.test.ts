import { expect, test } from "vitest";
import { fitDrift } from "../../bench/sound/drift.ts";

// Seven parts in a million over ten minutes are 4.2 ms: far more than a cue is off by.
const cues = Array.from({ length: 100 }, (_, at) => ({
  dueMs: 5_000 + at * 6_000,
  jitter: (at % 5) - 2,
}));

test("a recorder whose clock runs off is told from cues that are late", () => {
  const heard = cues.map(({ dueMs, jitter }) => ({
    dueMs,
    errorMs: 40 + 7e-6 * dueMs + 0.05 * jitter,
  }));
  const { partsPerMillion, residualMs } = fitDrift(heard);
  expect(partsPerMillion).toBeCloseTo(7, 1);
  expect(Math.max(...residualMs) - Math.min(...residualMs)).toBeLessThan(0.25);
});

test("one late cue moves nothing, and one cue alone has no drift", () => {
  const heard = cues.map(({ dueMs }, at) => ({ dueMs, errorMs: at === 50 ? 400 : 40 }));
  expect(fitDrift(heard).partsPerMillion).toBe(0);
  expect(fitDrift([{ dueMs: 1_000, errorMs: 3 }])).toEqual({ partsPerMillion: 0, residualMs: [3] });
});
