import type { PlanChime } from "../../shared/plan/plan.ts";
import type { SoundName } from "../../shared/plan/sound-names.ts";
import type { Sound } from "../../shared/sound/wav.ts";

/** Samples per second of a recording, and of every chime that ships. */
const recordingRate = 48_000;

/** What to render. Times are in seconds. */
export interface RecordingPlan {
  /** Moments of the cues from the session's begin, in order. */
  readonly cues: readonly number[];
  /** Length of the session. */
  readonly lengthSeconds: number;
  readonly chime: PlanChime;
  /** Linear gain of the chimes, 0 to 1. */
  readonly volume: number;
  /** Whether chimes announce the session's begin and end. */
  readonly announcements: boolean;
  /** Gives a chime as it ships: one channel at 48 kHz. */
  readonly load: (name: SoundName) => Sound;
}

/** A rendered session, in pieces that are made as they are asked for. */
export interface Recording {
  readonly sampleRate: number;
  /** Samples in the whole recording. */
  readonly sampleCount: number;
  /**
   * The sample at which the session begins: a cue at t seconds starts at exactly
   * `startSample + round(t * sampleRate)`. Zero without announcements.
   */
  readonly startSample: number;
  /** The sound, at most a minute at a time: a session of three hours would fill 2 GB at once. */
  blocks(): Generator<Float32Array>;
}

interface PlacedSound {
  readonly at: number;
  readonly samples: Float32Array;
}

/** From the begin chime to the session, and from the session to the end chime, in seconds. */
const pauseSeconds = 1;
const blockSamples = 60 * recordingRate;

/**
 * Lays out a session as one recording, ready to be read block by block.
 *
 * The chimes that announce begin and end lie outside the session: first the begin chime, then a second
 * of quiet, then the session from `startSample` on, and the end chime a second after the session. A cue
 * at the session's very end still rings then: the end chime keeps its moment and sounds into it. Chimes
 * that overlap are added; the shipped ones stay below full scale even then.
 *
 * @throws RangeError when a time or the volume is out of range, or a chime has another sample rate
 */
export function planRecording(plan: RecordingPlan): Recording {
  checkPlan(plan);
  const chime = loadChime(plan, plan.chime);
  const sessionSamples = Math.round(plan.lengthSeconds * recordingRate);
  const pause = pauseSeconds * recordingRate;
  const begin = plan.announcements ? loadChime(plan, "begin") : null;
  const startSample = begin ? begin.length + pause : 0;

  const sounds: PlacedSound[] = plan.cues.map((seconds) => ({
    at: startSample + Math.round(seconds * recordingRate),
    samples: chime,
  }));
  if (begin) {
    sounds.push({ at: 0, samples: begin });
    sounds.push({ at: startSample + sessionSamples + pause, samples: loadChime(plan, "end") });
  }
  const ends = sounds.map(({ at, samples }) => at + samples.length);
  const sampleCount = Math.max(startSample + sessionSamples, ...ends);

  return {
    sampleRate: recordingRate,
    sampleCount,
    startSample,
    *blocks() {
      for (let from = 0; from < sampleCount; from += blockSamples) {
        const block = new Float32Array(Math.min(blockSamples, sampleCount - from));
        for (const sound of sounds) addPart(block, from, sound, plan.volume);
        yield block;
      }
    },
  };
}

function checkPlan({ cues, lengthSeconds, volume }: RecordingPlan): void {
  if (!(lengthSeconds > 0)) {
    throw new RangeError(`lengthSeconds must be above 0; got ${lengthSeconds}.`);
  }
  if (!(volume >= 0 && volume <= 1))
    throw new RangeError(`volume must be from 0 to 1; got ${volume}.`);
  for (const cue of cues) {
    if (cue >= 0 && cue <= lengthSeconds) continue;
    throw new RangeError(`cue must be from 0 to ${lengthSeconds} seconds; got ${cue}.`);
  }
}

function loadChime({ load }: RecordingPlan, name: SoundName): Float32Array {
  const { sampleRate, samples } = load(name);
  if (sampleRate === recordingRate) return samples;
  throw new RangeError(
    `The chime ${name} must have ${recordingRate} samples a second; got ${sampleRate}.`,
  );
}

/** Adds to a block, which begins at sample `from`, what of a sound falls into it. */
function addPart(block: Float32Array, from: number, sound: PlacedSound, volume: number): void {
  const first = Math.max(0, from - sound.at);
  const last = Math.min(sound.samples.length, from + block.length - sound.at);
  for (let index = first; index < last; index++) {
    const place = sound.at + index - from;
    block[place] = (block[place] ?? 0) + volume * (sound.samples[index] ?? 0);
  }
}
