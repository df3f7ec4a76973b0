import type { SoundName } from "../../../../shared/plan/sound-names.ts";
import type { AudioOutput, PageClock } from "../../../../src/sound/audio-output.ts";

type Change = "state" | "error" | "devices";

/** A clock and an audio output that move only when told to; audio lags the page by `latencyMs`. */
export function createFakeAudio({
  latencyMs = 40,
  running = true,
  device: listed = true,
}: {
  latencyMs?: number;
  running?: boolean;
  device?: boolean | "refused";
} = {}) {
  let pageMs = 1000;
  let audioMs = 0;
  let alive = running;
  let device = listed;
  let resumes = false;
  const timers = new Set<{ at: number; then: () => void }>();
  const markers = new Set<{ at: number; then: () => void }>();
  const listeners = new Set<(change: Change) => void>();
  const starts: { name: SoundName; at: number; volume: number; stopped: boolean }[] = [];
  const plays: [SoundName, number][] = [];
  const loads: SoundName[] = [];
  const broken = new Set<SoundName>();
  let awake = false;
  /** Timers do not fire while the page is throttled. */
  let throttled = false;

  const clock: PageClock = {
    nowMs: () => pageMs,
    after(ms, then) {
      const timer = { at: pageMs + ms, then };
      timers.add(timer);
      return () => timers.delete(timer);
    },
  };

  const output: AudioOutput = {
    running: () => alive,
    audioSeconds: () => audioMs / 1000,
    clockPair: () => ({ audioSeconds: (audioMs - latencyMs) / 1000, pageMs }),
    async load(name) {
      loads.push(name);
      if (broken.has(name)) throw new Error("broken");
    },
    resume() {
      if (resumes) setRunning(true);
    },
    start(name, audioSeconds, volume) {
      const start = { name, at: audioSeconds * 1000, volume, stopped: false };
      starts.push(start);
      return () => {
        start.stopped = true;
      };
    },
    play: (name, volume) => plays.push([name, volume]),
    whenReached(audioSeconds, then) {
      const marker = { at: audioSeconds * 1000, then };
      markers.add(marker);
      return () => markers.delete(marker);
    },
    holdAwake(hold) {
      awake = hold;
    },
    async hasDevice() {
      if (device === "refused") throw new Error("The list is refused.");
      return device;
    },
    onChange(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };

  function tell(change: Change) {
    for (const listener of [...listeners]) listener(change);
  }

  function setRunning(now: boolean) {
    alive = now;
    tell("state");
  }

  function fire(waiting: Set<{ at: number; then: () => void }>, now: number) {
    for (const item of [...waiting]) {
      if (item.at > now || !waiting.delete(item)) continue;
      item.then();
    }
  }

  return {
    clock,
    output,
    starts,
    loads,
    plays,
    broken,
    isAwake: () => awake,
    nowMs: () => pageMs,
    setRunning,
    setDevice(there: boolean | "refused") {
      device = there;
      tell("devices");
    },
    failOutput: () => tell("error"),
    allowResume: () => {
      resumes = true;
    },
    setThrottled: (on: boolean) => {
      throttled = on;
    },
    /** Both clocks go on by so many ms, in steps of one. */
    async pass(ms: number, { audioRuns = true } = {}) {
      for (let step = 0; step < ms; step++) {
        pageMs += 1;
        if (alive && audioRuns) audioMs += 1;
        if (!throttled) fire(timers, pageMs);
        if (alive && audioRuns) fire(markers, audioMs);
        if (step % 50 === 0) await Promise.resolve();
      }
      for (let turn = 0; turn < 10; turn++) await Promise.resolve();
    },
    /** The machine sleeps: the page's clock goes on, the audio clock stands and says nothing of it. */
    sleep(ms: number) {
      pageMs += ms;
    },
  };
}
