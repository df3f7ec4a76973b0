/** What one record says of one cue; `none` (no mark) and `unseen` (no observation) are blanks. */
export type PairValue = "on" | "off" | "none" | "unseen";

/** Two records of the same student and cue: a self-record and a spot check, or two observers. */
export interface MarkPair {
  readonly first: PairValue;
  readonly second: PairValue;
}

/** Pairs counted into the four cells of a two-by-two table; a pair with a blank is left out and counted. */
export interface TwoByTwo {
  readonly bothOn: number;
  readonly firstOnly: number;
  readonly secondOnly: number;
  readonly bothOff: number;
  /** The four cells together. */
  readonly compared: number;
  readonly leftOut: {
    readonly firstBlank: number;
    readonly secondBlank: number;
    readonly bothBlank: number;
  };
}

/**
 * Counts pairs. `firstOnly` means on task in the first record alone, `secondOnly` in the second alone.
 * A blank is no data, never a disagreement: it leaves the table and is counted beside it.
 */
export function twoByTwo(pairs: Iterable<MarkPair>): TwoByTwo {
  const cells = { bothOn: 0, firstOnly: 0, secondOnly: 0, bothOff: 0 };
  const leftOut = { firstBlank: 0, secondBlank: 0, bothBlank: 0 };
  for (const { first, second } of pairs) {
    if (isBlank(first) && isBlank(second)) leftOut.bothBlank += 1;
    else if (isBlank(first)) leftOut.firstBlank += 1;
    else if (isBlank(second)) leftOut.secondBlank += 1;
    else if (first === "on") cells[second === "on" ? "bothOn" : "firstOnly"] += 1;
    else cells[second === "on" ? "secondOnly" : "bothOff"] += 1;
  }
  const compared = cells.bothOn + cells.firstOnly + cells.secondOnly + cells.bothOff;
  return { ...cells, compared, leftOut };
}

/** The table of four known counts, for records that come already counted. Counts are whole and >= 0. */
export function twoByTwoOf(
  bothOn: number,
  firstOnly: number,
  secondOnly: number,
  bothOff: number,
): TwoByTwo {
  const compared = bothOn + firstOnly + secondOnly + bothOff;
  const leftOut = { firstBlank: 0, secondBlank: 0, bothBlank: 0 };
  return { bothOn, firstOnly, secondOnly, bothOff, compared, leftOut };
}

function isBlank(value: PairValue): boolean {
  return value === "none" || value === "unseen";
}

/** What the first record says over all cues, compared or not: on, off; blanks left out. */
export function firstRecordOf(pairs: Iterable<MarkPair>): {
  readonly on: number;
  readonly off: number;
} {
  const marks = { on: 0, off: 0 };
  for (const { first } of pairs) if (first === "on" || first === "off") marks[first] += 1;
  return marks;
}
