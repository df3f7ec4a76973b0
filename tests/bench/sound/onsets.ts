import type { HeardCue } from "./drift.ts";
/** A sound found in a recording. */
export interface Onset {
  /** Where the chime's first sample lies, in samples (a fraction after refinement). */
  readonly at: number;
  /** Likeness to the chime, 0 to 1. */
  readonly likeness: number;
  /** How loud it is, as a multiple of the chime's samples. */
  readonly gain: number;
  /** Whether something like the chime begins once more before this one has died away. */
  readonly isEchoed: boolean;
}

/** Louder than this, of 32768, is no longer the quiet of an idle output. */
const audible = 80;

/**
 * Finds every chime in a recording: bursts are told from the quiet between them, then each one's onset
 * is found where the cross-correlation with the chime is greatest, to a fraction of a sample.
 *
 * @param recording 16-bit samples
 * @param chime the chime's samples at the same rate, any scale
 */
export function findOnsets(recording: Int16Array, chime: Float32Array): Onset[] {
  const firstAudible = firstOver(chime, 0.05);
  return burstStarts(recording, Math.round(chime.length * 1.15)).map((start) =>
    refine(recording, chime, start - firstAudible),
  );
}

/** Where sound begins after quiet; a burst lasts `burstLength`, whatever comes within it. */
function burstStarts(recording: Int16Array, burstLength: number): number[] {
  const starts: number[] = [];
  for (let at = 0; at < recording.length; at++) {
    if (Math.abs(recording[at] ?? 0) < audible) continue;
    starts.push(at);
    at += burstLength;
  }
  return starts;
}

function firstOver(chime: Float32Array, part: number): number {
  const peak = chime.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return chime.findIndex((value) => Math.abs(value) > peak * part);
}

/** The lag, within 30 ms either way, at which chime and recording are most alike. */
function refine(recording: Int16Array, chime: Float32Array, guess: number): Onset {
  const reach = 1440;
  const length = Math.min(chime.length, 12_000);
  const alike = (lag: number) => correlation(recording, chime, lag, length);
  let best = guess;
  let most = -1;
  for (let lag = guess - reach; lag <= guess + reach; lag++) {
    const value = alike(lag);
    if (value > most) {
      most = value;
      best = lag;
    }
  }
  // A parabola through the top and its neighbours gives the fraction.
  const before = alike(best - 1);
  const after = alike(best + 1);
  const bend = before - 2 * most + after;
  const at = best + (bend < 0 ? (0.5 * (before - after)) / bend : 0);
  const gain = gainAt(recording, chime, best, length);
  return { at, likeness: most, gain, isEchoed: isEchoed(recording, chime, at, gain) };
}

/** The least-squares multiple of the chime that the recording holds there. */
function gainAt(recording: Int16Array, chime: Float32Array, lag: number, length: number): number {
  let product = 0;
  let power = 0;
  for (let index = 0; index < length; index++) {
    const known = chime[index] ?? 0;
    product += (recording[lag + index] ?? 0) * known;
    power += known * known;
  }
  return power === 0 ? 0 : product / power;
}

/** Stretches of 20 ms are compared; a second chime is far louder than what a clean removal leaves. */
const stretch = 960;
const echoShare = 0.25;

/** Takes the chime away from the recording and looks whether as much as a quarter of one is left. */
function isEchoed(recording: Int16Array, chime: Float32Array, at: number, gain: number): boolean {
  const loudest = loudestStretch(chime.length, (index) => gain * (chime[index] ?? 0));
  const whole = Math.floor(at);
  const part = at - whole;
  const left = (index: number) => {
    // The chime lies between samples of the recording: the mean of its neighbours, by nearness.
    const known = (chime[index] ?? 0) * (1 - part) + (chime[index - 1] ?? 0) * part;
    return (recording[whole + index] ?? 0) - gain * known;
  };
  return loudestStretch(chime.length, left) > echoShare * loudest;
}

function loudestStretch(length: number, sampleAt: (index: number) => number): number {
  let most = 0;
  for (let from = 0; from < length; from += stretch) {
    let power = 0;
    for (let index = from; index < from + stretch; index++) power += sampleAt(index) ** 2;
    most = Math.max(most, power);
  }
  return Math.sqrt(most / stretch);
}

/**
 * How many of these sounds hide a second one: an echo within the chime, or a chime at the very same
 * moment, which is then half as loud again as the middle one of all, or more.
 */
export function hiddenDoubles(onsets: readonly Onset[]): number {
  const gains = onsets.map(({ gain }) => gain).sort((a, b) => a - b);
  const usual = gains[Math.floor(gains.length / 2)] ?? 0;
  return onsets.filter(({ gain, isEchoed }) => isEchoed || gain > 1.5 * usual).length;
}

function correlation(
  recording: Int16Array,
  chime: Float32Array,
  lag: number,
  length: number,
): number {
  let product = 0;
  let power = 0;
  let chimePower = 0;
  for (let index = 0; index < length; index++) {
    const heard = recording[lag + index] ?? 0;
    const known = chime[index] ?? 0;
    product += heard * known;
    power += heard * heard;
    chimePower += known * known;
  }
  return power === 0 ? 0 : product / Math.sqrt(power * chimePower);
}

/** Which recorded sounds are which cues; both in ms on one clock, `constantMs` apart at first guess. */
export function matchOnsets(
  dueMs: readonly number[],
  heardMs: readonly number[],
  withinMs = 1500,
): { errors: number[]; matched: HeardCue[]; missedMs: number[]; missed: number; doubled: number } {
  const left = new Set(heardMs);
  const matched: HeardCue[] = [];
  const missedMs: number[] = [];
  for (const due of dueMs) {
    const near = [...left].filter((heard) => Math.abs(heard - due) <= withinMs);
    const nearest = near.sort((a, b) => Math.abs(a - due) - Math.abs(b - due))[0];
    if (nearest === undefined) {
      missedMs.push(due);
      continue;
    }
    left.delete(nearest);
    matched.push({ dueMs: due, errorMs: nearest - due });
  }
  const errors = matched.map(({ errorMs }) => errorMs);
  return { errors, matched, missedMs, missed: missedMs.length, doubled: left.size };
}
