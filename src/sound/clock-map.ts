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

/** Pairs that count: enough to smooth the jitter, few enough to follow a clock that fell behind. */
const mostPairs = 9;
/** Clocks drift apart by at most some 0.1 ms a second, so pairs older than this are dropped, in ms. */
const oldestMs = 10_000;
/** A pair this far off is believed at once: the machine slept, or the device changed. */
const jumpMs = 250;

/**
 * A map between the two clocks that is smoothed by the median of the last few pairs.
 *
 * A pair as the browser reports it is now and then some ms off, and tens of ms while the machine is too
 * busy to fill the next block of sound. Blocks that were not filled in time are lost to the audio
 * clock: it falls behind for good, by steps. The median of nine follows after five pairs.
 */
export function createClockMap(): ClockMap {
  let pairs: ClockPair[] = [];

  const offsetMs = () => (pairs.length === 0 ? null : median(pairs.map(offsetOf)));

  return {
    add(pair) {
      const before = offsetMs();
      if (before !== null && Math.abs(offsetOf(pair) - before) > jumpMs) {
        pairs = [pair];
        return true;
      }
      pairs = [...pairs, pair]
        .filter((kept) => pair.pageMs - kept.pageMs <= oldestMs)
        .slice(-mostPairs);
      return false;
    },
    reset() {
      pairs = [];
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
