import { latestMs } from "../../../src/sound/decide-start.ts";
import type { Sleep } from "./sound-source.ts";

/** A cue that sounds this near its moment, at a stop or after waking, is no remainder of an earlier one. */
const nearMs = 60;
/** What the sound device held during a sleep is heard within this time after it. */
const heldMs = 700;

/** Sounds heard, told apart by what stopping and waking the program did to them. */
export interface SortedSounds<Sound> {
  /** Untouched by any stop. */
  readonly whole: readonly Sound[];
  /** Begun before a stop that cut them: the rest comes on waking, where an echo would be. */
  readonly cutOff: readonly Sound[];
  /** Pieces that the sound device gave out at a stop or on waking. */
  readonly pieces: readonly Sound[];
  /** Cues that were due just on waking and began late. */
  readonly late: readonly { readonly dueMs: number; readonly lateMs: number }[];
}

/** Sorts sounds by the sleeps they were heard about; all times in ms on one clock. */
export function sortByStops<Sound>(
  sounds: readonly Sound[],
  atMs: (sound: Sound) => number,
  dueMs: readonly number[],
  sleeps: readonly Sleep[],
  chimeMs: number,
): SortedSounds<Sound> {
  const isOfStop = (heard: number) =>
    sleeps.some(({ stoppedMs, wokeMs }) => heard > stoppedMs && heard < wokeMs + heldMs) &&
    !dueMs.some((due) => Math.abs(heard - due) < nearMs);
  const isCutOff = (heard: number) =>
    sleeps.some(({ stoppedMs }) => heard <= stoppedMs && heard + chimeMs > stoppedMs);
  const wakingMs = dueMs.filter((due) =>
    sleeps.some(({ wokeMs }) => Math.abs(due - wokeMs) < latestMs),
  );
  const lateFor = (heard: number) => wakingMs.find((due) => heard > due && heard < due + latestMs);
  const ofStops = sounds.filter((sound) => isOfStop(atMs(sound)));
  const others = sounds.filter((sound) => !ofStops.includes(sound));
  return {
    whole: others.filter((sound) => !isCutOff(atMs(sound))),
    cutOff: others.filter((sound) => isCutOff(atMs(sound))),
    pieces: ofStops.filter((sound) => lateFor(atMs(sound)) === undefined),
    late: ofStops.flatMap((sound) => {
      const due = lateFor(atMs(sound));
      return due === undefined ? [] : { dueMs: due, lateMs: atMs(sound) - due };
    }),
  };
}
