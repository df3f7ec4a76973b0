/** One moment on both clocks: what the speaker gives out, and the page's performance.now(). */
export interface ClockPair {
  readonly audioSeconds: number;
  readonly pageMs: number;
}

/** Maps moments of the page's clock to the audio clock and back. */
export interface ClockMap {
  /** Takes a fresh pair; true when the clocks have moved against each other and the old ones were dropped. */
  add(pair: ClockPair): boolean;
  /** Forgets everything, after a change of device or a suspended context. */
  reset(): void;
  /** The audio moment at which a sound must start to be heard at `pageMs`; null before the first pair. */
  audioSecondsAt(pageMs: number): number | null;
  /** The page moment at which the sound of `audioSeconds` is heard; null before the first pair. */
  pageMsAt(audioSeconds: number): number | null;
}

/** Pairs that count, and for how long: enough to smooth the jitter, too short for drift to matter. */
const mostPairs = 31;
const oldestMs = 15_000;
/** A pair this far off the others is doubted, in ms; so many in a row are believed. */
const doubtMs = 25;
const doubtsBelieved = 3;
/** A pair this far off is believed at once: the machine slept, or the device changed. */
const jumpMs = 250;

/**
 * A map between the two clocks that is smoothed by the median of recent pairs.
 *
 * A pair as the browser reports it jitters by some ms, because it is taken when a block of sound is
 * handed over; the median does not. The clocks drift apart by at most some 0.1 ms a second, so pairs
 * older than 15 s are dropped.
 */
export function createClockMap(): ClockMap {
  let pairs: ClockPair[] = [];
  let doubted: ClockPair[] = [];

  const offsetMs = () => (pairs.length === 0 ? null : median(pairs.map(offsetOf)));

  return {
    add(pair) {
      const before = offsetMs();
      const away = before === null ? 0 : Math.abs(offsetOf(pair) - before);
      if (away > doubtMs) {
        doubted.push(pair);
        if (away < jumpMs && doubted.length < doubtsBelieved) return false;
        pairs = away < jumpMs ? doubted : [pair];
        doubted = [];
        return true;
      }
      doubted = [];
      pairs = [...pairs, pair]
        .filter((kept) => pair.pageMs - kept.pageMs <= oldestMs)
        .slice(-mostPairs);
      return false;
    },
    reset() {
      pairs = [];
      doubted = [];
    },
    audioSecondsAt(pageMs) {
      const offset = offsetMs();
      return offset === null ? null : (pageMs - offset) / 1000;
    },
    pageMsAt(audioSeconds) {
      const offset = offsetMs();
      return offset === null ? null : audioSeconds * 1000 + offset;
    },
  };
}

function offsetOf(pair: ClockPair): number {
  return pair.pageMs - pair.audioSeconds * 1000;
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const upper = sorted[middle] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? upper) + upper) / 2;
}
