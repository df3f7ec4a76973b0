import seedrandom from "seedrandom";

/** A stream of random numbers, each at least 0 and below 1. */
export type RandomStream = () => number;

/**
 * The random stream called `name` of a session: seedrandom's default generator started with
 * `seed/name`.
 *
 * Every purpose has a stream of its own name ("cues", "spot-checks", ...), so a draw added for one
 * purpose changes nothing elsewhere. Same seed and name, same numbers, on every machine.
 *
 * Source: the `seedrandom` package; its documented outputs are held by a test.
 *
 * Example: randomStream("abc", "cues")() === randomStream("abc", "cues")() // true
 */
export function randomStream(sessionSeed: string, name: string): RandomStream {
  return seedrandom(`${sessionSeed}/${name}`);
}
