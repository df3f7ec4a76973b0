import { readFileSync } from "node:fs";
import { join } from "node:path";
import { ownChimeId } from "../../shared/plan/plan.ts";
import type { SoundName } from "../../shared/plan/sound-names.ts";
import { decodeWav, type Sound } from "../../shared/sound/wav.ts";

/**
 * Gives chimes, each read once: shipped ones from their folder, the teacher's own from where they are kept.
 *
 * @param ownSound the WAV file of a chime of the teacher's by its id; where there is none, the bell takes its place
 */
export function chimeLoader(
  folder: string,
  ownSound: (id: string) => Uint8Array | null = () => null,
): (name: SoundName) => Sound {
  const loaded = new Map<SoundName, Sound>();
  const read = (name: SoundName): Uint8Array => {
    const id = ownChimeId(name);
    if (id === null) return readFileSync(join(folder, `${name}.wav`));
    return ownSound(id) ?? readFileSync(join(folder, "bell.wav"));
  };
  return (name) => {
    const sound = loaded.get(name) ?? decodeWav(read(name));
    loaded.set(name, sound);
    return sound;
  };
}
