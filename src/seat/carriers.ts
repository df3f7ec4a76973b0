import type { SeatCarrier } from "../../shared/seats/message.ts";
import { keepCarriers, keptCarriers } from "./kept-carriers.ts";

type AudioMaker = typeof AudioContext;

/** Loudness of the tick, 0 to 1: begins at the lowest. */
const levels = [0.03, 0.06, 0.12, 0.2];

let context: AudioContext | null = null;
/** What was tried out at joining and works, and the step of loudness. */
let { working, step } = keptCarriers(levels.length);
/** Browsers let no page vibrate before a press. */
let wasPressed = false;
let changed = () => {};

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
    // A call, or the lock of the screen, takes the sound away.
    context.onstatechange = () => changed();
  }
  if (context.state !== "running") void context.resume();
}

const soundRuns = (): boolean => context !== null && context.state === "running";

/** A soft tick: 60 ms of a fading low tone with a gentle onset. */
export function tick(): boolean {
  if (context === null || context.state !== "running") return false;
  const at = context.currentTime + 0.02;
  const level = levels[step] ?? 0;
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
export function changeLevel(by: 1 | -1): void {
  step = Math.max(0, Math.min(levels.length - 1, step + by));
  keepCarriers({ working, step });
}

export function setWorks(carrier: SeatCarrier, works: boolean): void {
  working = working.filter((each) => each !== carrier).concat(works ? [carrier] : []);
  wasPressed = true;
  keepCarriers({ working, step });
}

/** A device that is tried out begins anew: what worked for the last seat may disturb this one. */
export function forgetCarriers(): void {
  working = ["sign"];
  step = 0;
  keepCarriers({ working, step });
}

const works = (carrier: SeatCarrier): boolean => working.indexOf(carrier) >= 0;

/** What works at this moment: sound and vibration only once the page was pressed, and while they run. */
export const carriersNow = (): SeatCarrier[] =>
  working.filter((each) => (each === "tick" ? soundRuns() : each === "touch" ? wasPressed : true));

/**
 * Calls back whenever what works may have changed. A press brings back what a reload or the system took away.
 *
 * @returns stops it
 */
export function followCarriers(look: () => void): () => void {
  const press = () => {
    wasPressed = true;
    if (works("tick")) wakeSound();
    look();
  };
  changed = look;
  document.addEventListener("click", press, true);
  return () => {
    changed = () => {};
    document.removeEventListener("click", press, true);
  };
}

/** Gives a cue by all that works beside the quiet sign, and says by what. */
export function carryCue(): SeatCarrier {
  if (works("tick") && tick()) return "tick";
  if (works("touch") && vibrate()) return "touch";
  return "sign";
}
