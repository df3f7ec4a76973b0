// The goals of seats, which their benches print and are held to: a bench that misses one fails.

/** What one room's round came to. */
export interface RoomFigures {
  readonly seats: number;
  readonly cues: number;
  /** Each answer in the log as "student cue". */
  readonly marks: readonly string[];
  /** From a press to its confirmation at the 99th percentile, in ms. */
  readonly tripP99Ms: number;
}

/** What own cues came to, by the log and by what the devices showed. */
export interface OwnFigures {
  /** Cues of which the log says otherwise than the device. */
  readonly wrong: number;
  /** Cues that were counted as missing a mark, though each one shown was answered. */
  readonly missing: number;
  /** From due to begun at the 99th percentile, in ms. */
  readonly lateP99Ms: number;
}

/** The room for which the time is a goal; a larger one is there to see where it ends. */
const goalSeats = 200;
const goalMs = 100;

export const roomGoals = `none lost, none doubled; up to ${goalSeats} seats p99 from press to disk and back under ${goalMs} ms`;
export const ownGoals = `none told otherwise, none counted as missing; p99 from due to begun under ${goalMs} ms`;

export const lostIn = ({ seats, cues, marks }: RoomFigures): number =>
  seats * cues - new Set(marks).size;
export const doubledIn = ({ marks }: RoomFigures): number => marks.length - new Set(marks).size;

/** Said this way round, a figure that could not be computed misses the goal. */
const isSlow = (ms: number): boolean => !(ms < goalMs);

/**
 * The goals that a room missed.
 *
 * @returns one line for each; none where all are met
 */
export function missedGoals(figures: RoomFigures): string[] {
  const [lost, doubled] = [lostIn(figures), doubledIn(figures)];
  const { seats, tripP99Ms } = figures;
  return [
    ...(lost === 0 ? [] : [`${seats} seats: answers lost: ${lost}`]),
    ...(doubled === 0 ? [] : [`${seats} seats: answers doubled: ${doubled}`]),
    ...(seats <= goalSeats && isSlow(tripP99Ms)
      ? [`${seats} seats: p99 ${tripP99Ms.toFixed(1)} ms, not under ${goalMs} ms`]
      : []),
  ];
}

/** The goals that own cues missed, as `missedGoals`. */
export function missedOwnGoals({ wrong, missing, lateP99Ms }: OwnFigures): string[] {
  return [
    ...(wrong === 0 ? [] : [`own cues: told otherwise than shown: ${wrong}`]),
    ...(missing === 0 ? [] : [`own cues: wrongly counted as missing: ${missing}`]),
    ...(isSlow(lateP99Ms)
      ? [`own cues: p99 ${lateP99Ms.toFixed(1)} ms after due, not under ${goalMs} ms`]
      : []),
  ];
}

/** Prints whether all goals were met, and ends the process: with 1 where one was missed. */
export function endWith(missed: readonly string[]): never {
  for (const each of missed) console.log(`Goal missed: ${each}`);
  if (missed.length === 0) console.log("All goals met.");
  process.exit(missed.length === 0 ? 0 : 1);
}
