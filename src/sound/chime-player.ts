import { type SoundName, soundNames } from "../../shared/plan/sound-names.ts";
import type { AudioOutput, PageClock } from "./audio-output.ts";
import { createClockMap } from "./clock-map.ts";
import {
  decideStart,
  holdMs,
  latestMs,
  type SoundFailure,
  type SoundStatus,
  whyLate,
} from "./decide-start.ts";

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

interface PendingCue {
  readonly cue: CueToSound;
  readonly dueAtMs: number;
  /** Cancels the wake-ups set for its next step. */
  alarms: (() => void)[];
  /** The sound handed to the audio clock; null until then. */
  handed: { readonly atSeconds: number; readonly stop: () => void } | null;
}

/** How long `unlock` waits for a context that was asked to run. */
const unlockMs = 600;
const tickMs = 250;
/** A running audio clock that stands still this long has lost its device. */
const stallMs = 1500;
/** How often the clocks are looked at while a cue waits on the audio clock, in seconds. */
const lookSeconds = 0.08;
/** A cue is moved when it lies further off than this, and stays when it is this near, in seconds. */
const toleratedSeconds = 0.001;
const settledSeconds = 0.03;
/** A start is never asked for in the very block that is being rendered. */
const blockSeconds = 0.01;

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
  const { output, clock, onOutcome } = options;
  const map = createClockMap();
  const chimes = new Map<SoundName, "loading" | "loaded" | "failed">();
  /** What is being loaded or has been: whoever asks for a chime meanwhile waits for the same load. */
  const loads = new Map<SoundName, Promise<void>>();
  const pending = new Map<number, PendingCue>();
  let everRan = output.running();
  let deviceGone = false;
  let deviceListed = false;
  let told: SoundStatus | null = null;
  let stopTicking: (() => void) | null = null;
  let lastMove = { audioSeconds: -1, atMs: clock.nowMs() };

  function status(): SoundStatus {
    if (deviceGone) return "device-lost";
    if (!output.running()) return everRan ? "suspended" : "locked";
    return stalled() ? "device-lost" : "ready";
  }

  function stalled(): boolean {
    const audioSeconds = output.audioSeconds();
    const nowMs = clock.nowMs();
    if (audioSeconds !== lastMove.audioSeconds || !output.running()) {
      lastMove = { audioSeconds, atMs: nowMs };
      return false;
    }
    return nowMs - lastMove.atMs > stallMs;
  }

  function tellStatus(): void {
    const now = status();
    if (now === told) return;
    told = now;
    options.onStatus?.(now);
  }

  function loadOne(name: SoundName): Promise<void> {
    const load = loads.get(name) ?? loadAnew(name);
    loads.set(name, load);
    return load;
  }

  async function loadAnew(name: SoundName): Promise<void> {
    chimes.set(name, "loading");
    try {
      await output.load(name);
      chimes.set(name, "loaded");
    } catch (error) {
      chimes.set(name, "failed");
      loads.delete(name);
      throw error;
    } finally {
      stepAll();
    }
  }

  /** Looks at the clocks; takes back what was mapped by clocks that have moved since. */
  function look(): void {
    if (output.running() && map.add(output.clockPair())) remapAll();
  }

  function remapAll(): void {
    for (const entry of pending.values()) takeBack(entry);
    stepAll();
  }

  function stepAll(): void {
    for (const entry of [...pending.values()]) if (!entry.handed) step(entry);
  }

  function takeBack(entry: PendingCue): void {
    for (const cancelAlarm of entry.alarms) cancelAlarm();
    entry.alarms = [];
    entry.handed?.stop();
    entry.handed = null;
  }

  /** Takes one cue as far as it can go now. */
  function step(entry: PendingCue): void {
    if (pending.get(entry.cue.cue) !== entry) return;
    takeBack(entry);
    const { dueAtMs } = entry;
    const { chime: name } = entry.cue;
    const nowMs = clock.nowMs();
    const chime = chimes.get(name) ?? "loading";
    const decision = decideStart({ nowMs, dueAtMs, status: status(), chime });
    if (decision.kind === "fail") {
      fail(entry, decision.reason);
      return;
    }
    entry.alarms.push(clock.after(dueAtMs + latestMs + 1 - nowMs, () => giveUp(entry)));
    if (decision.kind === "wait") wait(entry, decision.untilMs);
    if (decision.kind === "start") start(entry);
    if (decision.kind === "hold") hold(entry);
    if (!chimes.has(name)) loadOne(name).catch(() => {});
  }

  function hold(entry: PendingCue): void {
    if (!output.running()) output.resume();
    const lastMs = entry.dueAtMs + holdMs + 1;
    entry.alarms.push(clock.after(lastMs - clock.nowMs(), () => step(entry)));
  }

  function wait(entry: PendingCue, untilMs: number): void {
    const again = () => {
      look();
      step(entry);
    };
    // Whichever comes first: the timer is late in a hidden page, the audio clock may stand still.
    entry.alarms.push(clock.after(untilMs - clock.nowMs(), again));
    const reached = output.running() ? map.audioSecondsAt(untilMs) : null;
    if (reached !== null) entry.alarms.push(output.whenReached(reached, again));
  }

  function start(entry: PendingCue): void {
    const { dueAtMs } = entry;
    if (map.audioSecondsAt(dueAtMs) === null) map.add(output.clockPair());
    const dueSeconds = map.audioSecondsAt(dueAtMs) ?? 0;
    const atSeconds = Math.max(dueSeconds, output.audioSeconds() + blockSeconds);
    if ((map.pageMsAt(atSeconds) ?? dueAtMs) > dueAtMs + latestMs) {
      fail(entry, "too-late");
      return;
    }
    const stop = output.start(entry.cue.chime, atSeconds, entry.cue.volume);
    entry.handed = { atSeconds, stop };
    entry.alarms.push(output.whenReached(atSeconds, () => began(entry, atSeconds)));
    lookAgain(entry);
  }

  /** Until a cue begins the clocks are looked at often, and it is moved when they have. */
  function lookAgain(entry: PendingCue): void {
    const again = () => {
      look();
      if (mustMove(entry)) step(entry);
      else if (entry.handed) lookAgain(entry);
    };
    entry.alarms.push(output.whenReached(output.audioSeconds() + lookSeconds, again));
  }

  function mustMove({ handed, dueAtMs }: PendingCue): boolean {
    const wanted = map.audioSecondsAt(dueAtMs);
    if (!handed || wanted === null) return false;
    const left = handed.atSeconds - output.audioSeconds();
    return left > settledSeconds && Math.abs(wanted - handed.atSeconds) > toleratedSeconds;
  }

  /** The audio clock has passed the start, but what it renders is heard only some time later. */
  function began(entry: PendingCue, atSeconds: number): void {
    if (!output.running()) return;
    look();
    // The look may have found that the clocks jumped, and have taken the cue back.
    if (!entry.handed) return;
    const beganAtMs = map.pageMsAt(atSeconds) ?? clock.nowMs();
    const leftSeconds = (beganAtMs - clock.nowMs()) / 1000;
    if (leftSeconds <= 0) {
      finish(entry, { kind: "began", cue: entry.cue.cue, beganAtMs });
      return;
    }
    const again = () => began(entry, atSeconds);
    entry.alarms.push(output.whenReached(output.audioSeconds() + leftSeconds, again));
  }

  function giveUp(entry: PendingCue): void {
    const chime = chimes.get(entry.cue.chime) ?? "loading";
    fail(entry, whyLate(status(), chime));
  }

  function fail(entry: PendingCue, reason: SoundFailure): void {
    takeBack(entry);
    finish(entry, { kind: "failed", cue: entry.cue.cue, reason });
  }

  function finish(entry: PendingCue, outcome: CueOutcome): void {
    if (pending.get(entry.cue.cue) !== entry) return;
    pending.delete(entry.cue.cue);
    for (const cancelAlarm of entry.alarms) cancelAlarm();
    onOutcome(outcome);
    tellStatus();
  }

  function tick(): void {
    look();
    tellStatus();
    stopTicking = clock.after(tickMs, tick);
  }

  /** A device is missed only where one was listed before; a list that cannot be had says nothing. */
  async function isDeviceGone(): Promise<boolean> {
    try {
      const isListed = await output.hasDevice();
      deviceListed ||= isListed;
      return deviceListed && !isListed;
    } catch {
      return false;
    }
  }

  async function onChange(change: "state" | "error" | "devices"): Promise<void> {
    if (output.running()) everRan = true;
    map.reset();
    lastMove = { audioSeconds: -1, atMs: clock.nowMs() };
    if (change === "devices") deviceGone = await isDeviceGone();
    if (change === "state" && output.running()) deviceGone = false;
    if (change === "error") deviceGone = true;
    tellStatus();
    remapAll();
  }

  const stopListening = output.onChange((change) => {
    void onChange(change);
  });
  // Notes what is listed at first.
  void isDeviceGone();

  function cancel(cue: number): void {
    const entry = pending.get(cue);
    if (!entry) return;
    pending.delete(cue);
    takeBack(entry);
  }

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
    if (output.running()) everRan = true;
    tellStatus();
    return status();
  }

  function endSession(): void {
    for (const cue of [...pending.keys()]) cancel(cue);
    stopTicking?.();
    stopTicking = null;
    output.holdAwake(false);
  }

  return {
    async load(names = soundNames) {
      const results = await Promise.allSettled(names.map(loadOne));
      const lost = names.filter((_, index) => results[index]?.status === "rejected");
      if (lost.length > 0) throw new Error(`Chimes that could not be loaded: ${lost.join(", ")}.`);
    },
    unlock,
    status,
    beginSession() {
      if (stopTicking) return;
      output.holdAwake(true);
      if (!output.running()) output.resume();
      tick();
    },
    endSession,
    schedule(cue, dueAtMs) {
      checkVolume(cue.volume);
      cancel(cue.cue);
      look();
      if (chimes.get(cue.chime) === "failed") loadOne(cue.chime).catch(() => {});
      const entry: PendingCue = { cue, dueAtMs, alarms: [], handed: null };
      pending.set(cue.cue, entry);
      step(entry);
    },
    cancel,
    async preview(chime, volume) {
      checkVolume(volume);
      try {
        await loadOne(chime);
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
  if (!(volume >= 0 && volume <= 1)) throw new RangeError(`Volume is 0 to 1, not ${volume}.`);
}
