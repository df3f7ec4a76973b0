import type { Say } from "../../text/text.tsx";

/** A row of the list has room for so many numbers. */
const most = 10;

/**
 * Which cues a seat did not show: the first ten by number, and how many more.
 *
 * @param missed cue numbers, in any order; at least one
 */
export function wordMissed(say: Say, missed: readonly number[]): string {
  const numbers = missed.toSorted((one, other) => one - other);
  return say("seat.missed", {
    count: numbers.length,
    numbers: numbers.slice(0, most).join(", "),
    more: Math.max(0, numbers.length - most),
  });
}
