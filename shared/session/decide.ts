import { decidePoints, type PointsCommand, type PointsRefusal } from "./decide-points.ts";
import type {
  DeliveredBy,
  MarkValue,
  MarkWay,
  SeenValue,
  SessionEventBody,
  UndeliveredReason,
} from "./event.ts";
import {
  type CueRecord,
  type CueRef,
  cuesOf,
  isAsked,
  mayHaveShown,
  observedKey,
  openCueOf,
  type SessionState,
  unsettledCues,
} from "./state.ts";

/** A mark that comes longer than this after its cue is kept as late, in ms of session time. */
export const lateAfterMs = 20_000;
/** After the end the last cue still takes marks for this long, in ms. */
export const lastMarksMs = 60_000;

/** A device that lost its line may hand in an answer for so long after its cue, in ms of session time. */
export const seatMarksMs = 300_000;

/** Reasons for which a session says no; the API's refusal codes contain them. */
export type SessionRefusal =
  | "session-running"
  | "session-not-running"
  | "session-ended"
  | "cue-not-open"
  | "cue-unknown"
  | "student-set-aside"
  | PointsRefusal;

/** When a command comes. */
export interface Moment {
  /** Session time, in ms. */
  readonly sessionMs: number;
  /** Time since the session ended, in ms; zero while it runs. */
  readonly sinceEndMs: number;
}

type Reason<Kind extends "paused" | "ended"> = BodyOf<Kind>["reason"];

type BodyOf<Kind extends SessionEventBody["kind"]> = Extract<
  SessionEventBody,
  { readonly kind: Kind }
>;

/** What a card typed in later adds to the log. */
export type CardEvent = BodyOf<"mark"> | BodyOf<"total">;
type WorkEntry = Omit<BodyOf<"work">, "kind">;
type ObservedEntry = Pick<BodyOf<"observed">, "studentId" | "cue" | "value">;

/** What people and the conductor ask of a session. */
export type SessionCommand =
  | PointsCommand
  /**
   * `absentIds`: who is not there from the first moment. `ownGoals`: fixed for this session. `ownCues`: each
   * has cues of their own, and whose desk an adult touches.
   */
  | {
      readonly kind: "begin";
      readonly ownCues?: { readonly byTouchIds: readonly string[] } | undefined;
      readonly absentIds: readonly string[];
      readonly ownGoals?: readonly Omit<BodyOf<"own-goal">, "kind">[];
    }
  /** An earlier run of the app left the session open. */
  | { readonly kind: "recover" }
  /** A session that was held elsewhere or earlier, whole. */
  | { readonly kind: "bring-in"; readonly events: readonly SessionEventBody[] }
  /** Cards typed in after the end: what is new in them, see `cardChanges`. */
  | { readonly kind: "enter-cards"; readonly changes: readonly CardEvent[] }
  | { readonly kind: "enter-work"; readonly work: readonly WorkEntry[] }
  | {
      readonly kind: "enter-observed";
      readonly observer: 1 | 2;
      readonly marks: readonly ObservedEntry[];
    }
  | { readonly kind: "announce"; readonly studentId?: string | undefined; readonly cue: number }
  | {
      readonly kind: "deliver";
      /** Whose own cue it is. */
      readonly studentId?: string | undefined;
      readonly cue: number;
      readonly by: DeliveredBy;
      readonly latenessMs: number | null;
      readonly problem: string | null;
    }
  | {
      readonly kind: "leave-undelivered";
      /** Whose own cue it is, or whose device did not show one that reached the class. */
      readonly studentId?: string | undefined;
      readonly cue: number;
      readonly reason: UndeliveredReason;
      readonly problem?: string;
    }
  | {
      readonly kind: "mark";
      readonly studentId: string;
      readonly cue: number;
      readonly value: MarkValue;
      readonly way: MarkWay;
    }
  | {
      readonly kind: "say-away";
      readonly studentId: string;
      readonly cue: number;
      readonly away: boolean;
    }
  | { readonly kind: "set-aside"; readonly studentId: string; readonly aside: boolean }
  | {
      readonly kind: "spot-check";
      readonly studentId: string;
      readonly cue: number | null;
      readonly value: SeenValue;
    }
  | {
      readonly kind: "observe";
      readonly studentId: string;
      readonly cue: number;
      readonly value: SeenValue;
      readonly observer: 1 | 2;
    }
  | { readonly kind: "interruption"; readonly note: string }
  | { readonly kind: "note"; readonly text: string }
  /** The session is left out of every number from now on, and why; or is taken in again. */
  | { readonly kind: "leave-out"; readonly reason: string; readonly isTrial: boolean }
  | { readonly kind: "take-in" }
  /** Entries of the log that cannot be read are not to be, by their numbers. */
  | { readonly kind: "pass-over"; readonly seqs: readonly number[] }
  | { readonly kind: "pause"; readonly reason: Reason<"paused"> }
  | { readonly kind: "resume" }
  | { readonly kind: "end"; readonly reason: Reason<"ended"> };

export type Decision =
  | { readonly ok: true; readonly events: readonly SessionEventBody[] }
  | { readonly ok: false; readonly refusal: SessionRefusal };

const accept = (...events: SessionEventBody[]): Decision => ({ ok: true, events });
const refuse = (refusal: SessionRefusal): Decision => ({ ok: false, refusal });

/**
 * What a command adds to a session's log, or why it may not.
 *
 * Commands may arrive twice (a page that lost its connection asks again): what is so already adds
 * nothing and is no refusal. No events means that.
 */
export function decide(state: SessionState, command: SessionCommand, now: Moment): Decision {
  switch (command.kind) {
    case "begin":
      return state.status === "ready" ? accept(...beginning(command)) : accept();
    case "recover":
      return accept(...recovery(state));
    case "bring-in":
      return state.lastSeq === 0 ? accept(...command.events) : refuse(closedReason(state));
    case "enter-cards":
      return decideCards(state, command.changes);
    case "enter-work":
      if (state.status !== "ended") return refuse("session-running");
      return accept(...command.work.flatMap((entry) => newWork(state, entry)));
    case "enter-observed":
      return decideObservedSheet(state, command);
    case "announce":
      return decideAnnounce(state, command);
    case "deliver":
      return decideDeliver(state, command);
    case "leave-undelivered":
      return command.studentId === undefined || state.isOwn
        ? decideLeaveUndelivered(state, command)
        : decideLeaveUnreached(state, command.studentId, command, now);
    case "mark":
      return decideMark(state, command, now);
    case "say-away":
      return decideSayAway(state, command, now);
    case "set-aside":
      return decideSetAside(state, command.studentId, command.aside);
    case "spot-check":
      return decideSpotCheck(state, command);
    case "observe":
      return decideObserve(state, command);
    case "give":
    case "take":
    case "undo-press":
    case "stop-points":
    case "enter-pluses":
      return decidePoints(state, command, now.sessionMs + now.sinceEndMs);
    case "interruption":
      if (!isOpen(state)) return refuse(closedReason(state));
      return accept({ kind: "interruption", note: command.note });
    case "note":
      return accept({ kind: "note", text: command.text });
    case "pass-over":
      return accept(...command.seqs.map((seq): SessionEventBody => ({ kind: "passed-over", seq })));
    case "leave-out":
      if (state.status === "ready") return refuse("session-not-running");
      return accept(...leavingOut(state, command));
    case "take-in":
      return state.leftOutBecause === null ? accept() : accept({ kind: "taken-in" });
    case "pause":
      if (state.status === "paused") return accept();
      if (!isOpen(state)) return refuse(closedReason(state));
      return accept({ kind: "paused", reason: command.reason });
    case "resume":
      if (state.status === "running") return accept();
      if (!isOpen(state)) return refuse(closedReason(state));
      return accept({ kind: "resumed" });
    case "end":
      return decideEnd(state, command.reason);
  }
}

const isOpen = (state: SessionState): boolean =>
  state.status === "running" || state.status === "paused";

const closedReason = (state: SessionState): SessionRefusal =>
  state.status === "ended" ? "session-ended" : "session-not-running";

const beginning = ({
  absentIds,
  ownGoals = [],
  ownCues,
}: Extract<SessionCommand, { readonly kind: "begin" }>): SessionEventBody[] => [
  { kind: "begun", ...(ownCues === undefined ? {} : { cueing: "own" }) },
  ...(ownCues?.byTouchIds ?? []).map(
    (studentId): SessionEventBody => ({ kind: "by-touch", studentId }),
  ),
  ...ownGoals.map((goal): SessionEventBody => ({ kind: "own-goal", ...goal })),
  ...absentIds.map((studentId): SessionEventBody => ({ kind: "set-aside", studentId })),
];

/** Settles what an earlier run was in the middle of, and waits for the teacher. */
function recovery(state: SessionState): SessionEventBody[] {
  if (state.status === "ended") return [];
  const events: SessionEventBody[] = state.status === "ready" ? [{ kind: "begun" }] : [];
  for (const ref of unsettledCues(state)) {
    events.push({ kind: "undelivered", ...named(ref), reason: "app-closed" });
  }
  if (state.status !== "paused") events.push({ kind: "paused", reason: "app-closed" });
  return events;
}

function decideCards(state: SessionState, changes: readonly CardEvent[]): Decision {
  if (state.status !== "ended") return refuse("session-running");
  if (changes.some(({ studentId }) => state.setAside.has(studentId))) {
    return refuse("student-set-aside");
  }
  return accept(...changes);
}

function newWork(state: SessionState, entry: WorkEntry): SessionEventBody[] {
  const before = state.work.get(entry.studentId);
  const isSame =
    before?.assigned === entry.assigned &&
    before.completed === entry.completed &&
    before.correct === entry.correct;
  return isSame ? [] : [{ kind: "work", ...entry }];
}

/** An observer's whole sheet; a student and cue named twice in it means the later entry. */
function decideObservedSheet(
  state: SessionState,
  { observer, marks }: Extract<SessionCommand, { readonly kind: "enter-observed" }>,
): Decision {
  if (state.status !== "ended") return refuse("session-running");
  const newest = new Map(
    marks.map((mark) => [observedKey(mark.studentId, mark.cue, observer), mark]),
  );
  const events: SessionEventBody[] = [];
  for (const [key, { studentId, cue, value }] of newest) {
    if (cuesOf(state, studentId).get(cue)?.standing !== "delivered") return refuse("cue-unknown");
    if (state.observed.get(key)?.value === value) continue;
    events.push({ kind: "observed", studentId, cue, value, observer });
  }
  return accept(...events);
}

function leavingOut(
  state: SessionState,
  { reason, isTrial }: { readonly reason: string; readonly isTrial: boolean },
): SessionEventBody[] {
  if (state.leftOutBecause === reason && state.isTrial === isTrial) return [];
  return [{ kind: "left-out", reason, ...(isTrial ? { trial: true } : {}) }];
}

/** How a cue that a command names stands: of the class, or a student's own. */
const standingOf = (state: SessionState, { studentId, cue }: OneCue) =>
  (studentId === undefined ? state.cues : state.ownCues.get(studentId))?.get(cue)?.standing;

interface OneCue {
  readonly studentId?: string | undefined;
  readonly cue: number;
}

/** A cue as events name it: the class's are nobody's. */
const named = ({ studentId, cue }: OneCue | CueRef) =>
  studentId === undefined || studentId === null ? { cue } : { studentId, cue };

function decideAnnounce(state: SessionState, command: OneCue): Decision {
  if (state.status !== "running") return refuse(closedReason(state));
  const standing = standingOf(state, command);
  // A cue taken back by a pause is announced again; one that has its verdict never is.
  if (standing === "delivered" || standing === "undelivered") return refuse("cue-not-open");
  return accept({ kind: "announced", ...named(command) });
}

function decideDeliver(
  state: SessionState,
  command: Extract<SessionCommand, { readonly kind: "deliver" }>,
): Decision {
  const { by, latenessMs, problem } = command;
  const standing = standingOf(state, command);
  if (standing === "delivered" || standing === "undelivered") return accept();
  if (!isOpen(state)) return refuse(closedReason(state));
  // No window hears of a touch beforehand.
  if (standing === undefined && by !== "touch") return refuse("cue-unknown");
  return accept({ kind: "delivered", ...named(command), by, latenessMs, problem });
}

function decideLeaveUndelivered(
  state: SessionState,
  command: Extract<SessionCommand, { readonly kind: "leave-undelivered" }>,
): Decision {
  const { reason, problem } = command;
  const standing = standingOf(state, command);
  if (standing === "delivered" || standing === "undelivered") return accept();
  if (!isOpen(state)) return refuse(closedReason(state));
  return accept({
    kind: "undelivered",
    ...named(command),
    reason,
    ...(problem === undefined ? {} : { problem }),
  });
}

/** A mark that stands says that the cue came through, whatever was heard of the device. */
function decideLeaveUnreached(
  state: SessionState,
  studentId: string,
  { cue, reason }: Extract<SessionCommand, { readonly kind: "leave-undelivered" }>,
  now: Moment,
): Decision {
  if (state.status === "ready") return refuse("session-not-running");
  if (state.status === "ended" && now.sinceEndMs > lastMarksMs) return refuse("session-ended");
  if (state.cues.get(cue)?.standing !== "delivered") return refuse("cue-not-open");
  const value = state.marks.get(studentId)?.get(cue)?.value ?? "none";
  if (value !== "none" || !isAsked(state, studentId, cue)) return accept();
  return accept({ kind: "undelivered", studentId, cue, reason });
}

function decideMark(
  state: SessionState,
  { studentId, cue, value, way }: Extract<SessionCommand, { readonly kind: "mark" }>,
  now: Moment,
): Decision {
  const record = openRecord(state, studentId, cue, now, way);
  if (typeof record === "string") return refuse(record);
  const before = state.marks.get(studentId)?.get(cue);
  if ((before?.value ?? "none") === value) return accept();
  const late = openCueOf(state, studentId) !== cue || sinceCue(record, now) > lateAfterMs;
  return accept({ kind: "mark", studentId, cue, value, way, late });
}

/** A mark that stands says that the student was there. */
function decideSayAway(
  state: SessionState,
  { studentId, cue, away }: Extract<SessionCommand, { readonly kind: "say-away" }>,
  now: Moment,
): Decision {
  const record = openRecord(state, studentId, cue, now);
  if (typeof record === "string") return refuse(record);
  const hasMark = (state.marks.get(studentId)?.get(cue)?.value ?? "none") !== "none";
  const isAway = state.saidAway.get(studentId)?.has(cue) === true;
  if (isAway === away || (away && hasMark)) return accept();
  return accept({ kind: "said-away", studentId, cue, away });
}

type SettledCue = Exclude<CueRecord, { readonly standing: "announced" }>;

/** Time since a cue had its verdict, in ms. */
const sinceCue = ({ atMs }: SettledCue, now: Moment): number =>
  now.sessionMs + now.sinceEndMs - atMs;

/** The cue to which a student can still say something, or why it is no such cue. */
function openRecord(
  state: SessionState,
  studentId: string,
  cue: number,
  now: Moment,
  way: MarkWay = "screen",
): SettledCue | SessionRefusal {
  if (state.status === "ready") return "session-not-running";
  if (state.status === "ended" && now.sinceEndMs > lastMarksMs) return "session-ended";
  const record = cuesOf(state, studentId).get(cue);
  if (record === undefined) return "cue-unknown";
  // The window stays open until the next cue has begun. Closing it when the next cue is announced,
  // seconds earlier, would tell the class what is coming.
  const isDoubtful = state.isOwn && way === "seat" && mayHaveShown(record);
  if (record.standing === "announced") return "cue-not-open";
  if (record.standing === "undelivered" && !isDoubtful) return "cue-not-open";
  const isOpen = openCueOf(state, studentId) === cue;
  if (!isOpen && (way !== "seat" || sinceCue(record, now) > seatMarksMs)) return "cue-not-open";
  return state.setAside.has(studentId) ? "student-set-aside" : record;
}

function decideSetAside(state: SessionState, studentId: string, aside: boolean): Decision {
  if (state.status === "ready") return refuse("session-not-running");
  if (state.setAside.has(studentId) === aside) return accept();
  return accept(aside ? { kind: "set-aside", studentId } : { kind: "back", studentId });
}

function decideSpotCheck(
  state: SessionState,
  { studentId, cue, value }: Extract<SessionCommand, { readonly kind: "spot-check" }>,
): Decision {
  if (state.status === "ready") return refuse("session-not-running");
  if (state.status === "ended" && cue === null) return refuse("session-ended");
  const isKnown = cue === null || cuesOf(state, studentId).get(cue)?.standing === "delivered";
  if (!isKnown) return refuse("cue-unknown");
  const isLate = cue !== null && cue !== openCueOf(state, studentId);
  return accept({ kind: "spot-check", studentId, cue, value, ...(isLate ? { late: true } : {}) });
}

function decideObserve(
  state: SessionState,
  { studentId, cue, value, observer }: Extract<SessionCommand, { readonly kind: "observe" }>,
): Decision {
  if (state.status === "ready") return refuse("session-not-running");
  if (cuesOf(state, studentId).get(cue)?.standing !== "delivered") return refuse("cue-unknown");
  return accept({ kind: "observed", studentId, cue, value, observer });
}

/** The end settles every cue that a window was told of; cues not reached yet are simply not counted. */
function decideEnd(state: SessionState, reason: Reason<"ended">): Decision {
  if (state.status === "ended") return accept();
  const events = unsettledCues(state).map(
    (ref): SessionEventBody => ({ kind: "undelivered", ...named(ref), reason: "session-ended" }),
  );
  return accept(...events, { kind: "ended", reason });
}
