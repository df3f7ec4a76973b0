import type { CueOutcome, CueToSound } from "./cue-to-sound.ts";

export interface PendingCue {
  readonly cue: CueToSound;
  readonly dueAtMs: number;
  /** Cancels the wake-ups set for its next step. */
  alarms: (() => void)[];
  /** The sound handed to the audio clock; null until then. */
  handed: { readonly atSeconds: number; readonly stop: () => void } | null;
}

/** Cues that wait to begin; each leaves with one outcome, or none when it is taken back. */
export function pendingCues(onOutcome: (outcome: CueOutcome) => void) {
  const pending = new Map<number, PendingCue>();

  function cancel(cue: number): void {
    const entry = pending.get(cue);
    if (!entry) return;
    pending.delete(cue);
    takeBack(entry);
  }

  return {
    all: (): PendingCue[] => [...pending.values()],
    /** Whether it still waits; one that was scheduled again is another. */
    has: (entry: PendingCue): boolean => pending.get(entry.cue.cue) === entry,
    add(cue: CueToSound, dueAtMs: number): PendingCue {
      const entry: PendingCue = { cue, dueAtMs, alarms: [], handed: null };
      pending.set(cue.cue, entry);
      return entry;
    },
    cancel,
    cancelAll(): void {
      for (const cue of [...pending.keys()]) cancel(cue);
    },
    /** Lets a cue go with its outcome; what sounds goes on. */
    finish(entry: PendingCue, outcome: CueOutcome): void {
      if (pending.get(entry.cue.cue) !== entry) return;
      pending.delete(entry.cue.cue);
      for (const cancelAlarm of entry.alarms) cancelAlarm();
      onOutcome(outcome);
    },
  };
}

/** Takes a cue back from the audio clock, and its wake-ups with it; it goes on waiting. */
export function takeBack(entry: PendingCue): void {
  for (const cancelAlarm of entry.alarms) cancelAlarm();
  entry.alarms = [];
  entry.handed?.stop();
  entry.handed = null;
}
