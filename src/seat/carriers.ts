import type { SeatCarrier } from "../../shared/seats/message.ts";

type AudioMaker = typeof AudioContext;

let context: AudioContext | null = null;
/** Loudness of the tick, 0 to 1: begins at the lowest. */
let level = 0.03;
const levels = [0.03, 0.06, 0.12, 0.2];
/** What was tried out at joining, and works. */
const working: SeatCarrier[] = ["sign"];

export const canVibrate = (): boolean => typeof navigator.vibrate === "function";

/** Two soft pushes. False when the device would not. */
export const vibrate = (): boolean => canVibrate() && navigator.vibrate([60, 80, 60]);

/** To be called within a press: browsers let no page sound before one. */
export function wakeSound(): void {
  if (context === null) {
    const old = window as unknown as { webkitAudioContext?: AudioMaker };
    const Maker = window.AudioContext || old.webkitAudioContext;
    if (Maker === undefined) return;
    context = new Maker();
  }
  if (context.state !== "running") void context.resume();
}

export const soundRuns = (): boolean => context !== null && context.state === "running";

/** A soft tick: 60 ms of a fading low tone with a gentle onset. */
export function tick(): boolean {
  if (context === null || context.state !== "running") return false;
  const at = context.currentTime + 0.02;
  const tone = context.createOscillator();
  const loudness = context.createGain();
  tone.frequency.value = 660;
  loudness.gain.setValueAtTime(0, at);
  loudness.gain.linearRampToValueAtTime(level, at + 0.01);
  loudness.gain.linearRampToValueAtTime(0, at + 0.08);
  tone.connect(loudness);
  loudness.connect(context.destination);
  tone.start(at);
  tone.stop(at + 0.1);
  return true;
}

/** One step louder or softer; the loudest is still soft. */
export function changeLevel(step: 1 | -1): void {
  const next = levels.indexOf(level) + step;
  level = levels[Math.max(0, Math.min(levels.length - 1, next))] ?? level;
}

export function setWorks(carrier: SeatCarrier, works: boolean): void {
  const at = working.indexOf(carrier);
  if (works && at < 0) working.push(carrier);
  if (!works && at >= 0) working.splice(at, 1);
}

export const carriersNow = (): SeatCarrier[] =>
  working.filter((each) => each !== "tick" || soundRuns());

/** Gives a cue by all that works beside the quiet sign, and says by what. */
export function carryCue(): SeatCarrier {
  if (working.indexOf("tick") >= 0 && tick()) return "tick";
  if (working.indexOf("touch") >= 0 && vibrate()) return "touch";
  return "sign";
}
