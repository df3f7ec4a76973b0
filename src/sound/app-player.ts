import { addressOf } from "./chime-address.ts";
import { type ChimePlayer, type CueOutcome, createChimePlayer } from "./chime-player.ts";
import type { SoundStatus } from "./decide-start.ts";
import { howlerOutput } from "./howler-output.ts";
import { pageClock } from "./page-clock.ts";

type OutcomeListener = (outcome: CueOutcome) => void;
type StatusListener = (status: SoundStatus) => void;

const outcomeListeners = new Set<OutcomeListener>();
const statusListeners = new Set<StatusListener>();
let player: ChimePlayer | null = null;

/** The window's one chime player; made when sound is first wanted, because a page has one audio context. */
export function appPlayer(): ChimePlayer {
  player ??= createChimePlayer({
    output: howlerOutput(addressOf),
    clock: pageClock,
    onOutcome: (outcome) => {
      for (const listener of [...outcomeListeners]) listener(outcome);
    },
    onStatus: (status) => {
      for (const listener of [...statusListeners]) listener(status);
    },
  });
  return player;
}

/** Told what became of each scheduled cue; returns the way to stop listening. */
export function onCueOutcome(listener: OutcomeListener): () => void {
  outcomeListeners.add(listener);
  return () => outcomeListeners.delete(listener);
}

/** Told whenever sound becomes able or unable to play; returns the way to stop listening. */
export function onSoundStatus(listener: StatusListener): () => void {
  statusListeners.add(listener);
  return () => statusListeners.delete(listener);
}
