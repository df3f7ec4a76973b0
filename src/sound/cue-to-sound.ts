import type { SoundName } from "../../shared/plan/sound-names.ts";
import type { SoundFailure } from "./decide-start.ts";

/** A cue to sound: its number in the session, the chime it has, and its linear gain from 0 to 1. */
export interface CueToSound {
  readonly cue: number;
  readonly chime: SoundName;
  readonly volume: number;
}

/** What became of a scheduled cue. Moments are of performance.now(). */
export type CueOutcome =
  | { readonly kind: "began"; readonly cue: number; readonly beganAtMs: number }
  | { readonly kind: "failed"; readonly cue: number; readonly reason: SoundFailure };
