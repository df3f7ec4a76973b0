import type { SoundName } from "../../shared/plan/sound-names.ts";
import { appPlayer } from "./app-player.ts";
import type { SoundFailure } from "./decide-start.ts";

/** Plays a chime once at a volume from 0 to 1; resolves to why it could not sound, or null. */
export function preview(chime: SoundName, volume: number): Promise<SoundFailure | null> {
  return appPlayer().preview(chime, volume);
}
