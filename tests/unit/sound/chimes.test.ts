import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { decodeWav } from "../../../electron/recording/wav.ts";
import { exponential, sineOfTurns } from "../../../scripts/chimes/exact-math.ts";
import { renderChime } from "../../../scripts/chimes/render-chime.ts";
import { soundNames } from "../../../shared/plan/sound-names.ts";

const shipped = (name: string) =>
  readFileSync(new URL(`../../../assets/chimes/${name}.wav`, import.meta.url));

describe.each(soundNames)("the chime %s", (name) => {
  test("comes out of the synthesis as the very bytes that ship", () => {
    expect(Buffer.from(renderChime(name)).equals(shipped(name))).toBe(true);
  });

  test("is 48 kHz and from half a second to three seconds long", () => {
    const { sampleRate, samples } = decodeWav(shipped(name));
    expect(sampleRate).toBe(48_000);
    expect(samples.length).toBeGreaterThan(0.5 * sampleRate);
    // WCAG 2.2 SC 1.4.2: sound that starts by itself stays within three seconds.
    expect(samples.length).toBeLessThan(3 * sampleRate);
  });

  test("rises over 5 ms or more and starts and ends at exact zero without a click", () => {
    const { samples } = decodeWav(shipped(name));
    expect(samples[0]).toBe(0);
    expect(samples.at(-1)).toBe(0);
    const peak = largest(samples);
    // Common practice, no source: 40 dB below the peak in the first and last half millisecond.
    expect(largest(samples.subarray(0, 24))).toBeLessThan(peak / 100);
    expect(largest(samples.subarray(-24))).toBeLessThan(peak / 100);
    // Before 2.5 ms a 5 ms rise along half a cosine has not reached half of its height.
    expect(largest(samples.subarray(0, 120))).toBeLessThan(peak / 2);
  });
});

test("no two chimes are the same tone: their strongest frequencies or lengths differ", () => {
  const prints = soundNames.map((name) => {
    const { samples } = decodeWav(shipped(name));
    return `${strongestThirdOctave(samples.subarray(0, 9_600))} ${samples.length}`;
  });
  expect(new Set(prints).size).toBe(soundNames.length);
});

test("the exact sine and exponential agree with the engine's own", () => {
  for (let turns = -3; turns <= 3; turns += 0.0137) {
    expect(sineOfTurns(turns)).toBeCloseTo(Math.sin(turns * 2 * Math.PI), 13);
  }
  for (let x = -20; x <= 20; x += 0.371) {
    expect(exponential(x) / Math.exp(x)).toBeCloseTo(1, 11);
  }
  expect(() => exponential(61)).toThrow("-60 to 60");
});

function largest(samples: Float32Array): number {
  return samples.reduce((peak, sample) => Math.max(peak, Math.abs(sample)), 0);
}

/** The third-octave band centre, in hertz, with the most power (by Goertzel's sums). */
function strongestThirdOctave(samples: Float32Array): number {
  let best = { hertz: 0, power: 0 };
  for (let step = -6; step <= 7; step++) {
    const hertz = Math.round(1000 * 2 ** (step / 3));
    let power = 0;
    for (let detune = -0.4; detune <= 0.4; detune += 0.08) {
      const turns = (hertz * 2 ** (detune / 3)) / 48_000;
      let real = 0;
      let imaginary = 0;
      samples.forEach((sample, index) => {
        real += sample * Math.cos(2 * Math.PI * turns * index);
        imaginary += sample * Math.sin(2 * Math.PI * turns * index);
      });
      power += real * real + imaginary * imaginary;
    }
    if (power > best.power) best = { hertz, power };
  }
  return best.hertz;
}
