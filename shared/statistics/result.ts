/**
 * The words that every statistic shares. Rates are proportions from 0 to 1; only fields whose name ends
 * in `PointsPerWeek` or `Points` are in percentage points. Results carry numbers and codes; the
 * sentences for them live in the page's message catalogues.
 */

/** A closed interval; here a confidence interval unless a name says otherwise. */
export interface Interval {
  readonly lower: number;
  readonly upper: number;
}

/** Why a number is withheld. The page has a sentence for each. */
export type NotEnoughReason =
  /** Nobody recorded anything. `have` and `need` count marks. */
  | "no-marks"
  /** Nothing was asked: no cue was delivered. `have` and `need` count cues. */
  | "no-cues"
  /** Too few sessions with at least one mark. `have` and `need` count sessions. */
  | "few-sessions"
  /** All sessions lie on too few different days to speak of change. `have`, `need` count days. */
  | "few-days"
  /** Too few school weeks with marks. `have` and `need` count weeks. */
  | "few-weeks"
  /** Too few hours, weekdays or subjects to compare. `have` and `need` count them. */
  | "few-kinds"
  /** Too few students of whom it could be said. `have` and `need` count students. */
  | "few-students"
  /** The sessions are too much alike to measure a difference by. */
  | "no-spread";

export interface NotEnough {
  readonly kind: "not-enough";
  readonly reason: NotEnoughReason;
  readonly have: number;
  readonly need: number;
}

/** A result that may have to be withheld. An `enough` result never holds NaN or an infinity. */
export type Result<T> = ({ readonly kind: "enough" } & T) | NotEnough;

/** Example: notEnough("few-sessions", 2, 5).need // 5 */
export const notEnough = (reason: NotEnoughReason, have: number, need: number): NotEnough => ({
  kind: "not-enough",
  reason,
  have,
  need,
});

export type Direction = "up" | "down" | "level";
