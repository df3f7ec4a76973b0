import { chimeRate } from "../../shared/sound/loudness.ts";
import { exponential, sineOfTurns } from "./exact-math.ts";

/** Samples per second of every chime. */
export const sampleRate = chimeRate;

/** Draws a number from 0 up to 1, from a seeded stream. */
export type Draw = () => number;

/** One way in which a struck body swings. */
export interface Mode {
  /** Frequency as a multiple of the body's pitch. */
  readonly ratio: number;
  /** Strength beside the other modes. */
  readonly level: number;
  /** Seconds in which this mode dies away by 60 dB. */
  readonly ringSeconds: number;
}

/** An empty sound of a given length. */
export function silence(seconds: number): Float64Array {
  return new Float64Array(Math.round(seconds * sampleRate));
}

/** Adds one sound into another, starting at a moment; what would reach past the end is left out. */
export function mixIn(
  target: Float64Array,
  sound: Float64Array,
  atSeconds: number,
  gain = 1,
): void {
  const start = Math.round(atSeconds * sampleRate);
  const count = Math.min(sound.length, target.length - start);
  for (let index = 0; index < count; index++) {
    target[start + index] = at(target, start + index) + gain * at(sound, index);
  }
}

/** Modal synthesis: the sum of decaying sines that a struck bar, bell or bowl gives. */
export function strike(
  pitchHertz: number,
  modes: readonly Mode[],
  seconds: number,
  draw: Draw,
): Float64Array {
  const sound = silence(seconds);
  for (const mode of modes) {
    const startTurns = draw();
    const turnsPerSample = (pitchHertz * mode.ratio) / sampleRate;
    const keep = exponential(-sixtyDecibels / (mode.ringSeconds * sampleRate));
    let level = mode.level;
    for (let index = 0; index < sound.length; index++) {
      sound[index] = at(sound, index) + level * sineOfTurns(startTurns + index * turnsPerSample);
      level *= keep;
    }
  }
  return sound;
}

/** What a two-operator FM tone needs beside its pitch. */
export interface FmTone {
  /** Modulator frequency as a multiple of the pitch. */
  readonly ratio: number;
  /** Peak phase swing at the start, in radians: how bright the tone begins. */
  readonly index: number;
  /** Seconds in which the brightness dies away by 60 dB. */
  readonly brightSeconds: number;
  /** Seconds in which the tone dies away by 60 dB. */
  readonly ringSeconds: number;
}

/** FM synthesis: one sine swinging the phase of another, both dying away. */
export function fmTone(pitchHertz: number, tone: FmTone, seconds: number): Float64Array {
  const sound = silence(seconds);
  const carrierStep = pitchHertz / sampleRate;
  const modulatorStep = carrierStep * tone.ratio;
  const keepLevel = exponential(-sixtyDecibels / (tone.ringSeconds * sampleRate));
  const keepBright = exponential(-sixtyDecibels / (tone.brightSeconds * sampleRate));
  let level = 1;
  let swingTurns = tone.index / 6.283185307179586;
  for (let index = 0; index < sound.length; index++) {
    const swing = swingTurns * sineOfTurns(index * modulatorStep);
    sound[index] = level * sineOfTurns(index * carrierStep + swing);
    level *= keepLevel;
    swingTurns *= keepBright;
  }
  return sound;
}

/**
 * A plucked string: a loop of seeded noise, averaged a little each time round (the Karplus-Strong
 * algorithm, Computer Music Journal 7(2), 1983, with an all-pass filter to tune between samples).
 */
export function pluckString(
  pitchHertz: number,
  ringSeconds: number,
  seconds: number,
  draw: Draw,
): Float64Array {
  const sound = silence(seconds);
  // The averaging delays by half a sample; the all-pass makes up the fraction that is left.
  const period = sampleRate / pitchHertz - 0.5;
  const length = Math.floor(period - 0.2);
  const fraction = period - length;
  const allPass = (1 - fraction) / (1 + fraction);
  const loss = exponential(-sixtyDecibels / (ringSeconds * pitchHertz));
  const loop = softNoise(length, draw);
  let place = 0;
  let averageBefore = 0;
  let tunedBefore = 0;
  let previous = 0;
  for (let index = 0; index < sound.length; index++) {
    const now = at(loop, place);
    const average = loss * 0.5 * (now + previous);
    const tuned = allPass * average + averageBefore - allPass * tunedBefore;
    averageBefore = average;
    tunedBefore = tuned;
    previous = now;
    loop[place] = tuned;
    sound[index] = now;
    place = (place + 1) % length;
  }
  return sound;
}

/** Noise smoothed round the loop, so that the string starts mellow, and without a constant part. */
function softNoise(length: number, draw: Draw): Float64Array {
  let noise = Float64Array.from({ length }, () => draw() * 2 - 1);
  for (let pass = 0; pass < 6; pass++) {
    const rough = noise;
    noise = rough.map((value, index) => 0.5 * (value + at(rough, (index + 1) % length)));
  }
  const mean = noise.reduce((sum, value) => sum + value, 0) / length;
  return noise.map((value) => value - mean);
}

/** Lets a sound die away faster, by so many decibels a second. */
export function dampen(sound: Float64Array, decibelsPerSecond: number): Float64Array {
  const keep = exponential((-sixtyDecibels * decibelsPerSecond) / (60 * sampleRate));
  let level = 1;
  return sound.map((value) => {
    const dampened = value * level;
    level *= keep;
    return dampened;
  });
}

/**
 * Softens both ends: rises from exact zero over `attackSeconds`, falls back to exact zero over
 * `releaseSeconds`, along half a cosine, which has no corner to click.
 */
export function softenEnds(
  sound: Float64Array,
  attackSeconds: number,
  releaseSeconds: number,
): Float64Array {
  const attack = Math.round(attackSeconds * sampleRate);
  const release = Math.round(releaseSeconds * sampleRate);
  return sound.map((value, index) => {
    const rise = index < attack ? rampAt(index / attack) : 1;
    const left = sound.length - 1 - index;
    const fall = left < release ? rampAt(left / release) : 1;
    return value * rise * fall;
  });
}

/** Half a cosine from 0 to 1. */
function rampAt(part: number): number {
  return 0.5 - 0.5 * sineOfTurns(0.25 + part / 2);
}

/** ln(1000): the exponent by which an amplitude has fallen 60 dB. */
const sixtyDecibels = 6.907755278982137;

function at(values: Float64Array, index: number): number {
  const value = values[index];
  if (value === undefined) throw new RangeError(`No sample at ${index}.`);
  return value;
}
