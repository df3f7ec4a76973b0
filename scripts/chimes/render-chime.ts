import seedrandom from "seedrandom";
import { encodeWav } from "../../electron/recording/wav.ts";
import type { SoundName } from "../../shared/plan/sound-names.ts";
import { gatedPower } from "./loudness.ts";
import { recipes } from "./recipes.ts";
import { sampleRate } from "./synthesis.ts";

/** Loudness that every chime is brought to, in LUFS. */
export const targetLufs = -24;

/** `targetLufs` as mean power: 10^((-24 + 0.691) / 10). */
const targetPower = 0.004667668449794021;

/**
 * One chime as a finished WAV file: 48 kHz, one channel, 16 bits, at `targetLufs`. The same bytes on
 * every machine and in every version: the chance in it comes from a stream seeded by the chime's name.
 */
export function renderChime(name: SoundName): Uint8Array<ArrayBuffer> {
  const sound = recipes[name](seedrandom(`pebblechime/chimes/${name}`));
  const gain = Math.sqrt(targetPower / gatedPower(sound));
  return encodeWav(
    sound.map((value) => value * gain),
    sampleRate,
  );
}
