import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { exponential, sineOfTurns } from "../../../scripts/chimes/exact-math.ts";
import { renderChime } from "../../../scripts/chimes/render-chime.ts";
import { chimeNames } from "../../../shared/plan/plan.ts";
import { soundNames } from "../../../shared/plan/sound-names.ts";
import { decodeWav } from "../../../shared/sound/wav.ts";

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

test("each cue has a colour of its own, whatever its loudness and length", () => {
  const colours = chimeNames.map((name) => colour(decodeWav(shipped(name)).samples));
  const likenesses = colours.flatMap((one, index) =>
    colours.slice(index + 1).map((other) => dot(one, other)),
  );
  // 1 is the same colour. Our own choice, no source: the nearest two, bell and pluck, have about 0.8.
  expect(Math.max(...likenesses)).toBeLessThan(0.85);
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

/**
 * The share of amplitude in each third-octave band from 200 Hz to 10 kHz over the first 0.2 s (by
 * Goertzel's sums), as a vector of length 1: what the ear takes for the colour of a sound, without its
 * loudness and length.
 */
function colour(samples: Float32Array): number[] {
  const bands = Array.from({ length: 18 }, (_, step) => 200 * 2 ** (step / 3));
  const amplitudes = bands.map((hertz) => Math.sqrt(bandPower(samples.subarray(0, 9_600), hertz)));
  const length = Math.hypot(...amplitudes);
  return amplitudes.map((amplitude) => amplitude / length);
}

const dot = (one: readonly number[], other: readonly number[]): number =>
  one.reduce((sum, value, index) => sum + value * (other[index] ?? 0), 0);

function bandPower(samples: Float32Array, hertz: number): number {
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
  return power;
}
