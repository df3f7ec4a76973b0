import type { AudioOutput, PageClock } from "./audio-output.ts";
import type { ChimeLoads } from "./chime-loads.ts";
import { type ClockMap, createClockMap } from "./clock-map.ts";
import type { CueOutcome, CueToSound } from "./cue-to-sound.ts";
import { decideStart, holdMs, latestMs, type SoundFailure, whyLate } from "./decide-start.ts";
import type { OutputWatch } from "./output-watch.ts";
import { type PendingCue, pendingCues, takeBack } from "./pending-cues.ts";

/** How often the clocks are looked at while a cue waits on the audio clock, in seconds. */
const lookSeconds = 0.08;
/** A cue is moved when it lies further off than this, and stays when it is this near, in seconds. */
const toleratedSeconds = 0.0004;
const settledSeconds = 0.03;
/** A start is never asked for in the very block that is being rendered. */
const blockSeconds = 0.01;

/** What cues begin with. */
interface Means {
  readonly output: AudioOutput;
  readonly clock: PageClock;
  readonly watch: OutputWatch;
  readonly loads: ChimeLoads;
  readonly onOutcome: (outcome: CueOutcome) => void;
}

/** The cues that wait to begin, on both clocks; see `createChimePlayer`. */
export function cueStarts({ output, clock, watch, loads, onOutcome }: Means) {
  const map = createClockMap();
  const pending = pendingCues((outcome) => {
    onOutcome(outcome);
    watch.tell();
  });

  /** Looks at the clocks; takes back what was mapped by clocks that have moved since. */
  function look(): void {
    if (output.running() && map.add(output.clockPair())) remapAll();
  }

  function remapAll(): void {
    for (const entry of pending.all()) takeBack(entry);
    stepAll();
  }

  function stepAll(): void {
    for (const entry of pending.all()) if (!entry.handed) step(entry);
  }

  /** Takes one cue as far as it can go now. */
  function step(entry: PendingCue): void {
    if (!pending.has(entry)) return;
    takeBack(entry);
    const { dueAtMs } = entry;
    const { chime: name } = entry.cue;
    const nowMs = clock.nowMs();
    const chime = loads.state(name) ?? "loading";
    const decision = decideStart({ nowMs, dueAtMs, status: watch.status(), chime });
    if (decision.kind === "fail") {
      fail(entry, decision.reason);
      return;
    }
    entry.alarms.push(clock.after(dueAtMs + latestMs + 1 - nowMs, () => giveUp(entry)));
    if (decision.kind === "wait") wait(entry, decision.untilMs);
    if (decision.kind === "start") start(entry);
    if (decision.kind === "hold") hold(entry);
    if (loads.state(name) === undefined) loads.load(name).catch(() => {});
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
    const atSeconds = startSeconds(entry.dueAtMs, map, output);
    if (atSeconds === null) {
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
      if (mustMove(entry, map, output)) step(entry);
      else if (entry.handed) lookAgain(entry);
    };
    entry.alarms.push(output.whenReached(output.audioSeconds() + lookSeconds, again));
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
      pending.finish(entry, { kind: "began", cue: entry.cue.cue, beganAtMs });
      return;
    }
    const again = () => began(entry, atSeconds);
    entry.alarms.push(output.whenReached(output.audioSeconds() + leftSeconds, again));
  }

  function giveUp(entry: PendingCue): void {
    const chime = loads.state(entry.cue.chime) ?? "loading";
    fail(entry, whyLate(watch.status(), chime));
  }

  function fail(entry: PendingCue, reason: SoundFailure): void {
    takeBack(entry);
    pending.finish(entry, { kind: "failed", cue: entry.cue.cue, reason });
  }

  return {
    look,
    /** Tries again what is not with the audio clock yet. */
    stepAll,
    cancel: pending.cancel,
    /** What the output says of itself makes what was mapped void. */
    forgetClocks: () => map.reset(),
    remapAll,
    cancelAll: pending.cancelAll,
    add: (cue: CueToSound, dueAtMs: number): void => step(pending.add(cue, dueAtMs)),
  };
}

/** When a cue can begin on the audio clock, in seconds; null when that is too late for it. */
function startSeconds(dueAtMs: number, map: ClockMap, output: AudioOutput): number | null {
  if (map.audioSecondsAt(dueAtMs) === null) map.add(output.clockPair());
  const dueSeconds = map.audioSecondsAt(dueAtMs) ?? 0;
  const atSeconds = Math.max(dueSeconds, output.audioSeconds() + blockSeconds);
  return (map.pageMsAt(atSeconds) ?? dueAtMs) > dueAtMs + latestMs ? null : atSeconds;
}

/** Whether a cue that waits on the audio clock lies off its moment, and is far enough ahead to be moved. */
function mustMove({ handed, dueAtMs }: PendingCue, map: ClockMap, output: AudioOutput): boolean {
  const wanted = map.audioSecondsAt(dueAtMs);
  if (!handed || wanted === null) return false;
  const left = handed.atSeconds - output.audioSeconds();
  return left > settledSeconds && Math.abs(wanted - handed.atSeconds) > toleratedSeconds;
}
