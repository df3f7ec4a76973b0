import seedrandom from "seedrandom";
import type { ShippedSound } from "../../shared/plan/sound-names.ts";
import { chimePower, gatedPower } from "../../shared/sound/loudness.ts";
import { encodeWav } from "../../shared/sound/wav.ts";
import { recipes } from "./recipes.ts";
import { sampleRate } from "./synthesis.ts";

/**
 * One chime as a finished WAV file: 48 kHz, one channel, 16 bits, at `chimeLufs`. The same bytes on
 * every machine and in every version: the chance in it comes from a stream seeded by the chime's name.
 */
export function renderChime(name: ShippedSound): Uint8Array<ArrayBuffer> {
  const sound = recipes[name](seedrandom(`pebblechime/chimes/${name}`));
  const gain = Math.sqrt(chimePower / gatedPower(sound));
  return encodeWav(
    sound.map((value) => value * gain),
    sampleRate,
  );
}
