import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { SoundName } from "../../shared/plan/sound-names.ts";
import { decodeWav, type Sound } from "./wav.ts";

/** Gives chimes from the folder they ship in, each read once. */
export function chimeLoader(folder: string): (name: SoundName) => Sound {
  const loaded = new Map<SoundName, Sound>();
  return (name) => {
    const sound = loaded.get(name) ?? decodeWav(readFileSync(join(folder, `${name}.wav`)));
    loaded.set(name, sound);
    return sound;
  };
}
