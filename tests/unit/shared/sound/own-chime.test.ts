import { describe, expect, it } from "vitest";
import { chimeRate, gatedPower } from "../../../../shared/sound/loudness.ts";
import { mostPeak, prepareOwnChime } from "../../../../shared/sound/own-chime.ts";

/** A tone of so many seconds, with silence before and after. */
function tone(seconds: number, level: number, quietSeconds = 0): Float32Array {
  const quiet = Math.round(quietSeconds * chimeRate);
  const length = Math.round(seconds * chimeRate);
  return Float32Array.from({ length: length + 2 * quiet }, (_, at) =>
    at < quiet || at >= quiet + length
      ? 0
      : level * Math.sin((2 * Math.PI * 880 * (at - quiet + 0.5)) / chimeRate),
  );
}

function prepared(...channels: Float32Array[]) {
  const chime = prepareOwnChime(channels);
  if (typeof chime === "string") throw new Error(`Refused as ${chime}.`);
  return chime;
}

describe("A sound that a teacher brings", () => {
  // -24 LUFS as power, from BS.1770's own formula; the meter is held to test signals elsewhere.
  const wanted = 10 ** ((-24 + 0.691) / 10);

  it.each([0.9, 0.2, 0.01])("of level %s becomes as loud as the chimes that ship", (level) => {
    const { samples, isQuieter } = prepared(tone(1, level));
    expect(10 * Math.log10(gatedPower(samples) / wanted)).toBeCloseTo(0, 2);
    expect(isQuieter).toBe(false);
  });

  it("begins at its first sound, without a click", () => {
    const { samples } = prepared(tone(0.5, 0.5, 1));
    expect(Math.abs(samples.length / chimeRate - 0.5)).toBeLessThan(0.01);
    expect(Math.abs(samples[0] ?? 1)).toBeLessThan(0.001);
    expect(Math.abs(samples.at(-1) ?? 1)).toBeLessThan(0.001);
  });

  it("stays below its peak, and is said to be quieter, where a crack stands out", () => {
    const crack = tone(2, 0.002);
    for (let at = 20_000; at < 20_010; at += 1) crack[at] = 1;
    const { samples, isQuieter } = prepared(crack);
    const peak = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    expect(peak).toBeCloseTo(mostPeak, 6);
    expect(isQuieter).toBe(true);
  });

  it("has its channels averaged", () => {
    const [both, left] = [tone(1, 0.4), tone(1, 0.8)];
    const one = prepared(both);
    const two = prepared(left, new Float32Array(left.length));
    expect(two.samples).toHaveLength(one.samples.length);
    expect(two.samples[5_000]).toBeCloseTo(one.samples[5_000] ?? 0, 5);
  });

  it("is refused when it is too short, too long or nothing", () => {
    expect(prepareOwnChime([tone(0.05, 0.5)])).toBe("too-short");
    expect(prepareOwnChime([tone(8.5, 0.5)])).toBe("too-long");
    expect(prepareOwnChime([new Float32Array(chimeRate)])).toBe("silent");
    expect(prepareOwnChime([new Float32Array(0)])).toBe("silent");
  });
});
