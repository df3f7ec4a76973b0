import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { chimeLufs, chimeRate } from "../../../shared/sound/loudness.ts";
import { prepareOwnChime } from "../../../shared/sound/own-chime.ts";
import { encodeWav } from "../../../shared/sound/wav.ts";
import { temporaryFolder } from "../../e2e/support/temporary-folder.ts";
import { ffmpegIsThere, measureLoudness } from "./ffmpeg.ts";

const folder = temporaryFolder();
afterAll(() => folder.remove());

/** A struck sound: several partials that die away. */
function struck(hertz: number, ringSeconds: number, level: number): Float32Array {
  return Float32Array.from({ length: 2 * chimeRate }, (_, at) => {
    const seconds = at / chimeRate;
    const sum = [1, 2.76, 5.4].reduce(
      (all, ratio) => all + Math.sin(2 * Math.PI * hertz * ratio * seconds) / ratio,
      0,
    );
    return level * sum * Math.exp(-seconds / ringSeconds);
  });
}

// ITU-R BS.1770 as ffmpeg's ebur128 filter has it, another program than ours.
describe.runIf(ffmpegIsThere)("A teacher's own chime, measured by ffmpeg", () => {
  test.each([
    ["loud and long", struck(440, 0.8, 0.6)],
    ["faint", struck(660, 0.5, 0.004)],
    ["high", struck(1760, 0.6, 0.3)],
  ] as const)("is as loud as the chimes that ship: %s", (name, sound) => {
    const chime = prepareOwnChime([sound]);
    if (typeof chime === "string") throw new Error(`Refused as ${chime}.`);
    const path = join(folder.path, `${name}.wav`);
    writeFileSync(path, encodeWav(chime.samples, chimeRate));
    const { integrated, truePeak } = measureLoudness(["-i", path]);
    expect(Math.abs(integrated - chimeLufs)).toBeLessThanOrEqual(0.25);
    expect(truePeak).toBeLessThan(-5.5);
  });
});
