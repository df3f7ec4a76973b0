import type { Counts, SessionCount } from "../record/session-count.ts";
import type { Direction, Interval, Result } from "../statistics/result.ts";
import type { Evidence } from "./evidence.ts";
import { missingBounds } from "./rate.ts";

/** A headline boiled down to what would be said about it. */
export type Reading =
  | { readonly kind: "enough"; readonly direction: Direction; readonly evidence: Evidence }
  | { readonly kind: "not-enough" };

/** What is supposed about the cues that have no mark. */
export type Supposition =
  | "all-off"
  | "all-on"
  /** Off task up to a day, on task from then on: the most that missing marks can add to a rise. */
  | "off-then-on"
  /** The reverse: the most that they can take from it. */
  | "on-then-off";

const suppositions: readonly Supposition[] = ["all-off", "all-on", "off-then-on", "on-then-off"];

export interface ChangeSensitivity {
  readonly asRecorded: Reading;
  readonly supposed: readonly { readonly supposition: Supposition; readonly reading: Reading }[];
  /** Whether any supposition would be worded differently from the record. */
  readonly changes: boolean;
}

export interface RateSensitivity {
  /** The rate with all missing marks off task, and with all on task. */
  readonly bounds: Interval;
  /** Whether a bound lies outside the rate's own confidence interval. */
  readonly changes: boolean;
}

/** How far missing marks could move a rate, against how uncertain it is anyway. */
export function rateSensitivity(counts: Counts, interval: Interval): Result<RateSensitivity> {
  const found = missingBounds(counts);
  if (found.kind === "not-enough") return found;
  const { bounds } = found;
  return {
    kind: "enough",
    bounds,
    changes: bounds.lower < interval.lower || bounds.upper > interval.upper,
  };
}

/**
 * Whether the reading of a change over time hangs on the missing marks: it is read again with them
 * filled in by each supposition. `asRecorded` is the reading without them; `turn` is the first day
 * (`YYYY-MM-DD`) of the later part; `read` is the statistic. A worst-case bound in the sense of Manski CF (1990), American Economic Review
 * 80:319-323, not a model of why marks are missing.
 */
export function changeSensitivity(
  sessions: readonly SessionCount[],
  asRecorded: Reading,
  turn: string,
  read: (sessions: readonly SessionCount[]) => Reading,
): ChangeSensitivity {
  const complete = sessions.every((session) => session.missing === 0);
  const supposed = suppositions.map((supposition) => ({
    supposition,
    reading: complete
      ? asRecorded
      : read(sessions.map((session) => fillIn(session, supposition, turn))),
  }));
  return {
    asRecorded,
    supposed,
    changes: supposed.some(({ reading }) => !sameReading(reading, asRecorded)),
  };
}

/** A session with its missing marks taken as on or off task. Days compare as text. */
function fillIn<T extends SessionCount>(session: T, supposition: Supposition, turn: string): T {
  const later = session.day >= turn;
  const on =
    supposition === "all-on" ||
    (supposition === "off-then-on" && later) ||
    (supposition === "on-then-off" && !later);
  return {
    ...session,
    on: session.on + (on ? session.missing : 0),
    off: session.off + (on ? 0 : session.missing),
    missing: 0,
  };
}

/** Readings that cannot tell are alike whichever way they lean. */
function sameReading(a: Reading, b: Reading): boolean {
  if (a.kind === "not-enough" || b.kind === "not-enough") return a.kind === b.kind;
  if (a.evidence !== b.evidence) return false;
  return a.evidence === "cannot-tell" || a.direction === b.direction;
}

/** The reading of any result that has a direction and an evidence. */
export const readingOf = (
  result: Result<{ readonly direction: Direction; readonly evidence: Evidence }>,
): Reading =>
  result.kind === "not-enough"
    ? { kind: "not-enough" }
    : { kind: "enough", direction: result.direction, evidence: result.evidence };
