import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { chimeLoader } from "../../../../electron/recording/load-chime.ts";
import {
  planRecording,
  type RecordingPlan,
} from "../../../../electron/recording/render-recording.ts";
import { writeWav } from "../../../../electron/recording/write-wav.ts";
import { decodeWav } from "../../../../shared/sound/wav.ts";

const load = chimeLoader(fileURLToPath(new URL("../../../../assets/chimes/", import.meta.url)));

const plan: RecordingPlan = {
  // The third lies between two samples, the fourth across the border of two blocks.
  cues: [0, 12.345, 20.000_007, 59.5, 89],
  lengthSeconds: 90,
  chime: "bell",
  volume: 0.5,
  announcements: true,
  load,
};

/** The whole recording at once. */
function rendered(wanted: RecordingPlan) {
  const { blocks, ...facts } = planRecording(wanted);
  const samples = new Float32Array(facts.sampleCount);
  let at = 0;
  for (const block of blocks()) {
    samples.set(block, at);
    at += block.length;
  }
  return { ...facts, samples };
}

/** The sample at which each stretch of sound begins, told by at least half a second of exact zeros. */
function onsets(samples: Float32Array): number[] {
  const found: number[] = [];
  let quiet = 24_000;
  samples.forEach((sample, index) => {
    if (sample === 0) {
      quiet += 1;
      return;
    }
    if (quiet >= 24_000) found.push(index);
    quiet = 0;
  });
  return found;
}

const firstSound = (samples: Float32Array) => samples.findIndex((sample) => sample !== 0);

describe("a session as one recording", () => {
  test("has each cue at its sample, and the announcements outside the session", () => {
    const { samples, startSample, sampleRate } = rendered(plan);
    const chime = load("bell").samples;
    const silent = firstSound(chime);
    const begin = load("begin").samples;
    const end = load("end").samples;
    expect(startSample).toBe(begin.length + 48_000);
    const cueSamples = [0, 592_560, 960_000, 2_856_000, 4_272_000];
    expect(cueSamples).toEqual(plan.cues.map((seconds) => Math.round(seconds * 48_000)));
    expect(onsets(samples)).toEqual([
      firstSound(begin),
      ...cueSamples.map((at) => startSample + at + silent),
      startSample + 91 * sampleRate + firstSound(end),
    ]);
    expect(samples.length).toBe(startSample + 91 * sampleRate + end.length);
  });

  test("has the very chime at each cue, at its volume", () => {
    const { samples, startSample } = rendered(plan);
    const chime = load("bell").samples;
    for (const seconds of plan.cues) {
      const at = startSample + Math.round(seconds * 48_000);
      expect(samples.slice(at, at + chime.length)).toEqual(chime.map((value) => value * 0.5));
    }
  });

  test("without announcements begins with the session and lets the last chime ring out", () => {
    const quiet = { ...plan, announcements: false, cues: [5, 89.9] };
    const { samples, startSample } = rendered(quiet);
    const chime = load("bell").samples;
    expect(startSample).toBe(0);
    expect(onsets(samples)).toEqual([5, 89.9].map((s) => s * 48_000 + firstSound(chime)));
    expect(samples.length).toBe(89.9 * 48_000 + chime.length);
  });

  test("adds chimes that overlap and stays below full scale at full volume", () => {
    const close = { ...plan, announcements: false, cues: [1, 1.2, 1.4], volume: 1 };
    const { samples } = rendered(close);
    expect(samples.reduce((peak, sample) => Math.max(peak, Math.abs(sample)), 0)).toBeLessThan(1);
  });

  test("a cue at the very end rings into the end chime, which keeps its moment", () => {
    const late = { ...plan, cues: [30, 90] };
    const { samples, startSample } = rendered(late);
    const chime = load("bell").samples;
    const end = load("end").samples;
    expect(chime.length).toBeGreaterThan(48_000);
    const [cueAt, endAt] = [startSample + 90 * 48_000, startSample + 91 * 48_000];
    for (const index of [cueAt + 1000, endAt - 1, endAt + 1000, endAt + 10_000]) {
      const expected = 0.5 * ((chime[index - cueAt] ?? 0) + (end[index - endAt] ?? 0));
      expect(samples[index]).toBeCloseTo(expected, 6);
    }
    expect(samples.length).toBe(Math.max(cueAt + chime.length, endAt + end.length));
  });

  test("written to a file reads back the same to the nearest 16-bit step", async () => {
    const path = join(mkdtempSync(join(tmpdir(), "recording-")), "session.wav");
    await writeWav(path, planRecording(plan));
    const { samples, sampleRate } = decodeWav(readFileSync(path));
    const before = rendered(plan).samples;
    expect(sampleRate).toBe(48_000);
    expect(samples.length).toBe(before.length);
    const furthest = samples.reduce(
      (most, sample, index) => Math.max(most, Math.abs(sample - (before[index] ?? 2))),
      0,
    );
    expect(furthest).toBeLessThanOrEqual(0.5 / 32768);
  });

  test.each([
    [{ lengthSeconds: 0 }, "lengthSeconds must be above 0; got 0"],
    [{ volume: 1.5 }, "volume must be from 0 to 1; got 1.5"],
    [{ cues: [-1] }, "got -1"],
    [{ cues: [91] }, "cue must be from 0 to 90 seconds; got 91"],
    [{ cues: [Number.NaN] }, "got NaN"],
    [
      { load: () => ({ sampleRate: 44_100, samples: new Float32Array(9) }) },
      "48000 samples a second; got 44100",
    ],
  ] satisfies [Partial<RecordingPlan>, string][])("refuses %o", (change, sentence) => {
    expect(() => rendered({ ...plan, ...change })).toThrow(sentence);
  });
});
