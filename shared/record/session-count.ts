/** Who recorded the marks: the student, or someone watching. */
export type Source = "self" | "observer";

/** One student's marks in one session, counted. */
export interface SessionCount {
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
}

/** The part of a session that the rates need. */
export type Counts = Pick<SessionCount, "on" | "off" | "missing">;
