import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { soundNames } from "../../../shared/plan/sound-names.ts";
import { chimeLufs, gatedPower } from "../../../shared/sound/loudness.ts";
import { ffmpegIsThere, measureLoudness, missingFfmpeg } from "./ffmpeg.ts";

const chime = (name: string) => [
  "-i",
  fileURLToPath(new URL(`../../../assets/chimes/${name}.wav`, import.meta.url)),
];
const sine = (hertz: number, amplitude: number, seconds: number) => [
  "-f",
  "lavfi",
  "-i",
  `aevalsrc=${amplitude}*sin(2*PI*${hertz}*t):s=48000:d=${seconds}`,
];

/** A 1 kHz tone whose level in dBFS changes after so many seconds each. */
function steppedTone(steps: readonly (readonly [level: number, seconds: number])[]): string[] {
  let from = 0;
  const gains = steps.map(([level, seconds]) => {
    const gain = `${10 ** (level / 20)}*gte(t,${from})*lt(t,${from + seconds})`;
    from += seconds;
    return gain;
  });
  const source = `aevalsrc='(${gains.join("+")})*sin(2*PI*1000*t)':s=48000:d=${from}`;
  return ["-f", "lavfi", "-i", source];
}

test("the outside meter is there", (context) => {
  if (ffmpegIsThere) return;
  if (process.env.CI) throw new Error(missingFfmpeg);
  console.warn(missingFfmpeg);
  context.skip(missingFfmpeg);
});

describe.runIf(ffmpegIsThere)("the outside meter itself", () => {
  // ITU-R BS.1770: 0 dBFS at 997 Hz in one front channel reads -3.01 LKFS.
  test("reads the standard's anchor", () => {
    expect(measureLoudness(sine(997, 1, 5)).integrated).toBeCloseTo(-3.01, 1);
  });

  // EBU Tech 3341, Table 1, cases 1 and 2 (stereo 1 kHz, within 0.1 LU).
  test.each([-23, -33])("reads %s LUFS for the stereo tone at that level", (level) => {
    const tone = sine(1000, 10 ** (level / 20), 20);
    const { integrated } = measureLoudness(tone, "pan=stereo|c0=c0|c1=c0");
    expect(Math.abs(integrated - level)).toBeLessThanOrEqual(0.1);
  });

  // EBU Tech 3341, Table 1, cases 3 to 5: steps of a stereo 1 kHz tone, each dBFS for so many seconds,
  // read -23.0 LUFS within 0.1 LU: the quiet ends fall to the gates.
  test.each([
    [
      "3",
      [
        [-36, 10],
        [-23, 60],
        [-36, 10],
      ],
    ],
    [
      "4",
      [
        [-72, 10],
        [-36, 10],
        [-23, 60],
        [-36, 10],
        [-72, 10],
      ],
    ],
    [
      "5",
      [
        [-26, 20],
        [-20, 20.1],
        [-26, 20],
      ],
    ],
  ] as const)("reads -23 LUFS for case %s of the test signals", (_case, steps) => {
    const { integrated } = measureLoudness(steppedTone(steps), "pan=stereo|c0=c0|c1=c0");
    expect(Math.abs(integrated + 23)).toBeLessThanOrEqual(0.1);
  });

  // EBU Tech 3341, case 6: 5.0 sound, left and right -28, centre -24, surrounds -30 dBFS, 20 s.
  test("weighs the channels of surround sound, case 6", () => {
    const channels = [-28, -28, -24, -30, -30].map(
      (level) => `${10 ** (level / 20)}*sin(2*PI*1000*t)`,
    );
    const source = `aevalsrc=${channels.join("|")}:s=48000:d=20:c=5.0(side)`;
    const { integrated } = measureLoudness(["-f", "lavfi", "-i", source]);
    expect(Math.abs(integrated + 23)).toBeLessThanOrEqual(0.1);
  });

  // EBU Tech 3341, Table 1, cases 15 to 19: tones whose peaks lie between the samples, +0.2/-0.4 dB.
  test.each([
    [15, 0.5, 4, 0, -6],
    [16, 0.5, 4, 45, -6],
    [17, 0.5, 6, 60, -6],
    [18, 0.5, 8, 67.5, -6],
    [19, 1.41, 4, 45, 3],
  ])("sees the true peak of case %i", (_case, amplitude, part, degrees, expected) => {
    const hertz = 48_000 / part;
    const phase = `${degrees / 180}*PI`;
    const source = `aevalsrc=${amplitude}*sin(2*PI*${hertz}*t+${phase}):s=48000:d=2`;
    // Faded in and out: a tone that starts at once would ring in the meter's own filter.
    const fades = "afade=d=0.3,afade=t=out:st=1.7:d=0.3";
    const { truePeak } = measureLoudness(["-f", "lavfi", "-i", source], fades);
    expect(truePeak).toBeLessThanOrEqual(expected + 0.2);
    expect(truePeak).toBeGreaterThanOrEqual(expected - 0.4);
  });
});

describe.runIf(ffmpegIsThere)("the chimes by ITU-R BS.1770, measured by ffmpeg", () => {
  const measured = new Map(soundNames.map((name) => [name, measureLoudness(chime(name))]));
  const spread = (values: readonly number[]) => Math.max(...values) - Math.min(...values);

  test.each([...measured])("%s has the loudness it was made for", (_name, { integrated }) => {
    expect(Math.abs(integrated - chimeLufs)).toBeLessThanOrEqual(0.25);
  });

  test("are equally loud within 0.5 LU", () => {
    expect(spread([...measured.values()].map((loudness) => loudness.integrated))).toBeLessThan(0.5);
  });

  // Common practice, no source: for sounds this short the loudest 400 ms is what a listener notices.
  test("are equally loud in their loudest 400 ms within 1 LU", () => {
    expect(spread([...measured.values()].map((loudness) => loudness.momentary))).toBeLessThan(1);
  });

  test.each([...measured])("%s peaks at -6 dBTP or lower", (_name, { truePeak }) => {
    expect(truePeak).toBeLessThanOrEqual(-6);
  });
});

describe("our own measure, which sets the chimes' gain", () => {
  const tone = (hertz: number, seconds: number) =>
    Float64Array.from({ length: seconds * 48_000 }, (_, n) =>
      Math.sin((2 * Math.PI * hertz * n) / 48_000),
    );
  const lufs = (sound: Float64Array) => -0.691 + 10 * Math.log10(gatedPower(sound));

  // ITU-R BS.1770 anchor, -3.01; -3.0036 for 1000 Hz computed from the standard's coefficients.
  test("reads the standard's anchor", () => {
    expect(lufs(tone(997, 5))).toBeCloseTo(-3.01, 2);
    expect(lufs(tone(1000, 5))).toBeCloseTo(-3.0036, 2);
  });

  test("pads a sound shorter than a gating block with silence to one block", () => {
    // Half a block of tone has half the power of a block: 3.01 LU less.
    expect(lufs(tone(997, 0.2))).toBeCloseTo(-3.01 - 3.01, 1);
  });

  test("is zero for silence", () => {
    expect(gatedPower(new Float64Array(48_000))).toBe(0);
  });

  test.runIf(ffmpegIsThere)("agrees with ffmpeg on a tone in steps", () => {
    // EBU Tech 3341, case 3 in shorter steps: quiet ends fall to the relative gate.
    const steps = [-36, -23, -36].flatMap((level) =>
      [...tone(1000, 4)].map((s) => s * 10 ** (level / 20)),
    );
    const filter = "volume='if(between(t,4,8),1,pow(10,-13/20))':eval=frame,volume=-23dB";
    const outside = measureLoudness(sine(1000, 1, 12), filter).integrated;
    expect(Math.abs(lufs(Float64Array.from(steps)) - outside)).toBeLessThan(0.1);
  });
});
