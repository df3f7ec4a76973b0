import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { planRecording } from "../../../electron/recording/render-recording.ts";
import { decodeWav } from "../../../shared/sound/wav.ts";
import { findOnsets, hiddenDoubles, matchOnsets } from "../../bench/sound/onsets.ts";

// The sound bench stands on this finder, so it is held against recordings whose onsets are known to the
// sample: those that the app renders.

const load = (name: string) =>
  decodeWav(readFileSync(new URL(`../../../assets/chimes/${name}.wav`, import.meta.url)));
const bell = load("bell").samples;

/** A recording as a sound server gives it: 16 bits, quiet noise of one step. */
function recordingOf(cues: readonly number[], announcements = false): Int16Array {
  const plan = {
    cues,
    lengthSeconds: 40,
    chime: "bell",
    volume: 0.5,
    announcements,
    load,
  } as const;
  const { sampleCount, blocks } = planRecording(plan);
  const samples = new Int16Array(sampleCount);
  let at = 0;
  for (const block of blocks()) {
    for (const value of block) {
      samples[at] = Math.round(32_767 * value) + (at % 3) - 1;
      at += 1;
    }
  }
  return samples;
}

const found = (samples: Int16Array) =>
  findOnsets(samples, bell).filter(({ likeness }) => likeness > 0.35);

test("finds each chime to a hundredth of a sample, and none twice", () => {
  const cues = [2, 7.00125, 14.5, 21, 33.3];
  const onsets = found(recordingOf(cues));
  expect(onsets).toHaveLength(cues.length);
  onsets.forEach(({ at }, index) => {
    expect(Math.abs(at - Math.round((cues[index] ?? 0) * 48_000))).toBeLessThan(0.01);
  });
  expect(hiddenDoubles(onsets)).toBe(0);
});

test("leaves the chimes of begin and end out", () => {
  expect(found(recordingOf([5, 20], true))).toHaveLength(2);
});

test("misses what is not there, and counts what is there too much", () => {
  const heard = found(recordingOf([2, 9, 30])).map(({ at }) => at / 48);
  expect(matchOnsets([2000, 9000, 16_000], heard)).toMatchObject({ missed: 1, doubled: 1 });
});

test.each([0.005, 0.08, 0.4, 1.1])("hears a second chime %f seconds into the first", (late) => {
  const onsets = found(recordingOf([2, 9, 9 + late, 16, 23, 30]));
  // The tail of one that begins near the first's end may count once more.
  expect(hiddenDoubles(onsets)).toBeGreaterThanOrEqual(1);
  const heard = onsets.map(({ at }) => at / 48);
  const { missed } = matchOnsets([2000, 9000, 16_000, 23_000, 30_000], heard);
  expect(missed).toBe(0);
});

test("hears two chimes at the very same moment", () => {
  const once = recordingOf([2, 9, 16, 23]);
  const again = recordingOf([9]);
  const onsets = found(once.map((value, index) => value + (again[index] ?? 0)));
  expect(onsets).toHaveLength(4);
  expect(hiddenDoubles(onsets)).toBe(1);
});
