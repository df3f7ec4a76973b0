import { chimePower, chimeRate, gatedPower } from "./loudness.ts";

/** Bounds of a chime that a teacher brings: its file in bytes, its sound in seconds; our own choice, no source. */
export const ownChimeBounds = {
  mostBytes: 10_000_000,
  leastSeconds: 0.1,
  mostSeconds: 8,
  /** Chimes kept at a time. */
  most: 12,
} as const;

/** Full scale that no sample of a chime goes above: what two chimes at once still have room for. */
export const mostPeak = 0.5;

/** Quieter than this at both ends is taken off, so that the chime begins at its cue: -60 dB of full scale. */
const silence = 0.001;
/** Loudness of what can hardly be a chime: -60 LUFS as mean power, 10^((-60 + 0.691) / 10). */
const leastPower = 1.1724653045822963e-6;
/** The sound is let in and out within this time, so that it does not click, in seconds. */
const edgeSeconds = 0.005;

/** Why a sound cannot be a chime. */
export type OwnChimeProblem = "too-short" | "too-long" | "silent";

/** A sound that is ready to be kept as a chime. */
export interface PreparedChime {
  /** One channel at 48 kHz. */
  readonly samples: Float64Array;
  /** Whether its peaks kept it quieter than the chimes that ship. */
  readonly isQuieter: boolean;
}

/**
 * Makes a chime of a decoded sound: channels averaged, silence taken off both ends, edges softened, and
 * brought to the loudness of the chimes that ship (-24 LUFS by ITU-R BS.1770), or as near as its peaks
 * allow.
 *
 * @param channels each at 48 kHz, full scale 1; at least one, all of one length
 *
 * Example: prepareOwnChime([new Float32Array(48_000)]) // "silent"
 */
export function prepareOwnChime(
  channels: readonly Float32Array[],
): PreparedChime | OwnChimeProblem {
  const sound = withoutSilence(mixed(channels));
  if (sound === null) return "silent";
  const seconds = sound.length / chimeRate;
  if (seconds < ownChimeBounds.leastSeconds) return "too-short";
  if (seconds > ownChimeBounds.mostSeconds) return "too-long";
  const soft = softened(sound);
  const power = gatedPower(soft);
  if (power < leastPower) return "silent";
  const wanted = Math.sqrt(chimePower / power);
  const allowed = mostPeak / peakOf(soft);
  const gain = Math.min(wanted, allowed);
  return { samples: soft.map((value) => value * gain), isQuieter: allowed < wanted };
}

function mixed(channels: readonly Float32Array[]): Float64Array {
  const [first = new Float32Array(0)] = channels;
  return Float64Array.from(
    first,
    (_, at) => channels.reduce((sum, channel) => sum + (channel[at] ?? 0), 0) / channels.length,
  );
}

function withoutSilence(sound: Float64Array): Float64Array | null {
  const isHeard = (value: number) => Math.abs(value) > silence;
  const first = sound.findIndex(isHeard);
  return first < 0 ? null : sound.slice(first, sound.findLastIndex(isHeard) + 1);
}

function softened(sound: Float64Array): Float64Array {
  const edge = Math.round(edgeSeconds * chimeRate);
  return sound.map((value, at) => value * Math.min(1, (at + 1) / edge, (sound.length - at) / edge));
}

/** A loop of its own: `Math.max` takes no array this long. */
function peakOf(sound: Float64Array): number {
  return sound.reduce((peak, value) => Math.max(peak, Math.abs(value)), 0);
}
