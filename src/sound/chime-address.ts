import { ownChimeId } from "../../shared/plan/plan.ts";
import type { ShippedSound, SoundName } from "../../shared/plan/sound-names.ts";
import { chimeUrls } from "./chime-urls.ts";

/** Gives the WAV file of a chime of the teacher's in base64; null when there is none any more. */
type OwnChimes = (id: string) => Promise<string | null>;

let ownChimes: OwnChimes = () => Promise.resolve(null);

/** Says, once, where the teacher's own chimes come from. */
export function giveOwnChimes(from: OwnChimes): void {
  ownChimes = from;
}

/** Where a chime is found. An own one that was removed is the bell: a cue is never without a sound. */
export async function addressOf(name: SoundName): Promise<string> {
  const id = ownChimeId(name);
  if (id === null) return chimeUrls[name as ShippedSound];
  const sound = await ownChimes(id);
  return sound === null ? chimeUrls.bell : `data:audio/wav;base64,${sound}`;
}
