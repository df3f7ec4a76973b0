/**
 * The words that every statistic in this folder shares. Rates are proportions from 0 to 1; only
 * fields whose name ends in `PointsPerWeek` or `Points` are in percentage points. Results carry
 * numbers and codes; the sentences for them live in the page's message catalogues.
 */

/** Who recorded the marks: the student, or someone watching. */
export type Source = "self" | "observer";

/** One student's marks in one session, counted. */
export type SessionCount = {
  readonly sessionId: string;
  /** Start of the session, milliseconds since 1970 in UTC. Only used to put sessions in order. */
  readonly startedAt: number;
  /** The school's local day of the session, `YYYY-MM-DD`. */
  readonly day: string;
  /** Marks that said "on task", and "off task". */
  readonly on: number;
  readonly off: number;
  /** Cues that were delivered and have no mark. They are no data: never counted as off task. */
  readonly missing: number;
  readonly source: Source;
  /** The school's local time of the start, minutes after midnight; absent when it is not known. */
  readonly minuteOfDay?: number;
  /** What was being worked on; absent when nobody said. */
  readonly subject?: string;
};

/** The part of a session that the rates need. */
export type Counts = Pick<SessionCount, "on" | "off" | "missing">;

/** A closed interval; in this folder a confidence interval unless a name says otherwise. */
export type Interval = { readonly lower: number; readonly upper: number };

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
  | "few-kinds";

export type NotEnough = {
  readonly kind: "not-enough";
  readonly reason: NotEnoughReason;
  readonly have: number;
  readonly need: number;
};

/** A result that may have to be withheld. An `enough` result never holds NaN or an infinity. */
export type Result<T> = ({ readonly kind: "enough" } & T) | NotEnough;

export const notEnough = (reason: NotEnoughReason, have: number, need: number): NotEnough => ({
  kind: "not-enough",
  reason,
  have,
  need,
});

export type Direction = "up" | "down" | "level";
