import { type SoundName, soundNames } from "../../shared/plan/sound-names.ts";
import type { AudioOutput, PageClock } from "./audio-output.ts";
import { chimeLoads } from "./chime-loads.ts";
import { cueStarts } from "./cue-starts.ts";
import type { CueOutcome, CueToSound } from "./cue-to-sound.ts";
import type { SoundFailure, SoundStatus } from "./decide-start.ts";
import { watchOutput } from "./output-watch.ts";

export type { CueOutcome, CueToSound } from "./cue-to-sound.ts";

export interface ChimePlayer {
  /** Loads chimes, all unless told; rejects with the names of those that failed, the others can be used. */
  load(names?: readonly SoundName[]): Promise<void>;
  /** Call within a click or key press. Resolves to what the output can do then. */
  unlock(): Promise<SoundStatus>;
  status(): SoundStatus;
  /** Keeps the output awake from here to `endSession`. */
  beginSession(): void;
  /** Takes back every cue that has not begun, and lets the output sleep. */
  endSession(): void;
  /**
   * Sounds a cue when performance.now() reaches `dueAtMs`, which may lie seconds or minutes ahead.
   * Exactly one outcome is reported, at its moment or at the latest `latestMs` after it, unless it is
   * taken back. A cue scheduled again takes the new time; a chime that could not be loaded is tried again.
   * Throws a RangeError for a volume that is none.
   */
  schedule(cue: CueToSound, dueAtMs: number): void;
  /** Takes a cue back; no outcome is reported after this. One that was reported as begun rings out. */
  cancel(cue: number): void;
  /**
   * Plays a chime at once, for choosing one and for the sound check, at a linear gain from 0 to 1 that no
   * cue takes over; null when it sounds. Rejects with a RangeError for a volume that is none.
   */
  preview(chime: SoundName, volume: number): Promise<SoundFailure | null>;
  dispose(): void;
}

/** How long `unlock` waits for a context that was asked to run. */
const unlockMs = 600;
const tickMs = 250;

/**
 * Sounds cues on time. Each is given to the audio clock about two seconds ahead, and moved while it waits
 * there whenever the audio clock has fallen behind; the audio clock itself tells when it has begun.
 * When the output stops, or its clock jumps, what has not begun is taken back and mapped again, so
 * nothing rings late.
 */
export function createChimePlayer(options: {
  readonly output: AudioOutput;
  readonly clock: PageClock;
  readonly onOutcome: (outcome: CueOutcome) => void;
  readonly onStatus?: (status: SoundStatus) => void;
}): ChimePlayer {
  const { output, clock, onOutcome, onStatus = () => {} } = options;
  const loads = chimeLoads(output, () => starts.stepAll());
  const watch = watchOutput(output, clock, onStatus);
  const starts = cueStarts({ output, clock, watch, loads, onOutcome });
  let stopTicking: (() => void) | null = null;

  function tick(): void {
    starts.look();
    watch.tell();
    stopTicking = clock.after(tickMs, tick);
  }

  async function onChange(change: "state" | "error" | "devices"): Promise<void> {
    starts.forgetClocks();
    watch.note(change);
    // All else is done at once: what has not begun must not sound meanwhile.
    if (change === "devices") await watch.lookForDevice();
    watch.tell();
    starts.remapAll();
  }

  const stopListening = output.onChange((change) => {
    void onChange(change);
  });

  async function unlock(): Promise<SoundStatus> {
    if (!output.running()) {
      output.resume();
      await new Promise<void>((resolve) => {
        const done = () => {
          stop();
          cancelTimer();
          resolve();
        };
        const stop = output.onChange(() => output.running() && done());
        const cancelTimer = clock.after(unlockMs, done);
      });
    }
    watch.noteRunning();
    watch.tell();
    return watch.status();
  }

  function endSession(): void {
    starts.cancelAll();
    stopTicking?.();
    stopTicking = null;
    output.holdAwake(false);
  }

  return {
    load: (names = soundNames) => loads.loadAll(names),
    unlock,
    status: watch.status,
    beginSession() {
      if (stopTicking) return;
      output.holdAwake(true);
      if (!output.running()) output.resume();
      tick();
    },
    endSession,
    schedule(cue, dueAtMs) {
      checkVolume(cue.volume);
      starts.cancel(cue.cue);
      starts.look();
      if (loads.state(cue.chime) === "failed") loads.load(cue.chime).catch(() => {});
      starts.add(cue, dueAtMs);
    },
    cancel: starts.cancel,
    async preview(chime, volume) {
      checkVolume(volume);
      try {
        await loads.load(chime);
      } catch {
        return "load-failed";
      }
      const now = await unlock();
      if (now !== "ready") return now;
      output.play(chime, volume);
      return null;
    },
    dispose() {
      endSession();
      stopListening();
    },
  };
}

function checkVolume(volume: number): void {
  if (!(volume >= 0 && volume <= 1))
    throw new RangeError(`volume must be from 0 to 1; got ${volume}.`);
}
