import type { Counts } from "../record/session-count.ts";
import { type Interval, notEnough, type Result } from "../statistics/result.ts";
import { wilsonInterval } from "../statistics/wilson.ts";

/** Cues of a session that have a mark. */
export const marked = (counts: Counts): number => counts.on + counts.off;

/** Throws RangeError when a count is negative, a fraction, or no number. */
export function checkCounts(counts: Counts): void {
  if (isCount(counts.on) && isCount(counts.off) && isCount(counts.missing)) return;
  for (const name of ["on", "off", "missing"] as const) {
    const value = counts[name];
    if (!isCount(value)) {
      throw new RangeError(
        `"${name}" must be a whole number of marks, zero or more; got ${value}.`,
      );
    }
  }
}

const isCount = (value: number): boolean => Number.isSafeInteger(value) && value >= 0;

/**
 * On-task rate of one session: on / (on + off), with Wilson's interval. A cue without a mark is no
 * data and is left out; see `missingBounds` for what it could hide.
 */
export function onTaskRate(
  counts: Counts,
  confidence = 0.95,
): Result<{ rate: number; interval: Interval; marks: number }> {
  checkCounts(counts);
  const marks = marked(counts);
  if (marks === 0) return notEnough("no-marks", 0, 1);
  return {
    kind: "enough",
    rate: counts.on / marks,
    interval: wilsonInterval(counts.on, marks, confidence),
    marks,
  };
}

/** Share of delivered cues that have a mark. */
export function responseRate(
  counts: Counts,
): Result<{ rate: number; marks: number; cues: number }> {
  checkCounts(counts);
  const marks = marked(counts);
  const cues = marks + counts.missing;
  if (cues === 0) return notEnough("no-cues", 0, 1);
  return { kind: "enough", rate: marks / cues, marks, cues };
}

/**
 * The least and greatest on-task rate that the missing marks leave possible: all of them off task,
 * all of them on task. Not a confidence interval. Equal ends when nothing is missing.
 */
export function missingBounds(counts: Counts): Result<{ bounds: Interval; cues: number }> {
  checkCounts(counts);
  const cues = marked(counts) + counts.missing;
  if (cues === 0) return notEnough("no-cues", 0, 1);
  return {
    kind: "enough",
    bounds: { lower: counts.on / cues, upper: (counts.on + counts.missing) / cues },
    cues,
  };
}

/** The counts of several sessions added up. */
export function addCounts(list: readonly Counts[]): Counts {
  let on = 0;
  let off = 0;
  let missing = 0;
  for (const counts of list) {
    on += counts.on;
    off += counts.off;
    missing += counts.missing;
  }
  return { on, off, missing };
}
