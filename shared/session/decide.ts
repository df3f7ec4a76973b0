import type {
  MarkValue,
  MarkWay,
  SeenValue,
  SessionEventBody,
  UndeliveredReason,
} from "./event.ts";
import type { SessionState } from "./state.ts";

/** A mark that comes longer than this after its cue is kept as late, in ms of session time. */
export const lateAfterMs = 20_000;
/** After the end the last cue still takes marks for this long, in ms. */
export const lastMarksMs = 60_000;

/** Reasons for which a session says no; the API's refusal codes contain them. */
export type SessionRefusal =
  | "session-not-running"
  | "session-ended"
  | "cue-not-open"
  | "cue-unknown"
  | "student-set-aside";

/** When a command comes. */
export interface Moment {
  /** Session time, in ms. */
  readonly sessionMs: number;
  /** Time since the session ended, in ms; zero while it runs. */
  readonly sinceEndMs: number;
}

type Reason<Kind extends "paused" | "ended"> = Extract<
  SessionEventBody,
  { readonly kind: Kind }
>["reason"];

/** What people and the conductor ask of a session. */
export type SessionCommand =
  | { readonly kind: "begin" }
  | { readonly kind: "announce"; readonly cue: number }
  | {
      readonly kind: "deliver";
      readonly cue: number;
      readonly by: "sound" | "sight";
      readonly latenessMs: number | null;
      readonly problem: string | null;
    }
  | {
      readonly kind: "give-up";
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
      return state.status === "ready" ? accept({ kind: "begun" }) : accept();
    case "announce":
      return decideAnnounce(state, command.cue);
    case "deliver":
      return decideDeliver(state, command);
    case "give-up":
      return decideGiveUp(state, command);
    case "mark":
      return decideMark(state, command, now);
    case "set-aside":
      return decideSetAside(state, command.studentId, command.aside);
    case "spot-check":
      return decideSpotCheck(state, command);
    case "observe":
      return decideObserve(state, command);
    case "interruption":
      if (!isOpen(state)) return refuse(closedReason(state));
      return accept({ kind: "interruption", note: command.note });
    case "note":
      return accept({ kind: "note", text: command.text });
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

function decideAnnounce(state: SessionState, cue: number): Decision {
  if (state.status !== "running") return refuse(closedReason(state));
  const standing = state.cues.get(cue)?.standing;
  // A cue taken back by a pause is announced again; one that has its verdict never is.
  if (standing === "delivered" || standing === "undelivered") return refuse("cue-not-open");
  return accept({ kind: "announced", cue });
}

function decideDeliver(
  state: SessionState,
  { cue, by, latenessMs, problem }: Extract<SessionCommand, { readonly kind: "deliver" }>,
): Decision {
  const standing = state.cues.get(cue)?.standing;
  if (standing === "delivered" || standing === "undelivered") return accept();
  if (!isOpen(state)) return refuse(closedReason(state));
  if (standing === undefined) return refuse("cue-unknown");
  return accept({ kind: "delivered", cue, by, latenessMs, problem });
}

function decideGiveUp(
  state: SessionState,
  { cue, reason, problem }: Extract<SessionCommand, { readonly kind: "give-up" }>,
): Decision {
  const standing = state.cues.get(cue)?.standing;
  if (standing === "delivered" || standing === "undelivered") return accept();
  if (!isOpen(state)) return refuse(closedReason(state));
  return accept({
    kind: "undelivered",
    cue,
    reason,
    ...(problem === undefined ? {} : { problem }),
  });
}

function decideMark(
  state: SessionState,
  { studentId, cue, value, way }: Extract<SessionCommand, { readonly kind: "mark" }>,
  now: Moment,
): Decision {
  if (state.status === "ready") return refuse("session-not-running");
  if (state.status === "ended" && now.sinceEndMs > lastMarksMs) return refuse("session-ended");
  const record = state.cues.get(cue);
  if (record === undefined) return refuse("cue-unknown");
  // The window stays open until the next cue has begun. Closing it when the next cue is announced,
  // seconds earlier, would tell the class what is coming.
  if (record.standing !== "delivered" || state.openCue !== cue) return refuse("cue-not-open");
  if (state.setAside.has(studentId)) return refuse("student-set-aside");
  const before = state.marks.get(studentId)?.get(cue);
  if ((before?.value ?? "none") === value) return accept();
  const late = now.sessionMs + now.sinceEndMs - record.atMs > lateAfterMs;
  return accept({ kind: "mark", studentId, cue, value, way, late });
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
  if (cue !== null && state.cues.get(cue)?.standing !== "delivered") return refuse("cue-unknown");
  return accept({ kind: "spot-check", studentId, cue, value });
}

function decideObserve(
  state: SessionState,
  { studentId, cue, value, observer }: Extract<SessionCommand, { readonly kind: "observe" }>,
): Decision {
  if (state.status === "ready") return refuse("session-not-running");
  if (state.cues.get(cue)?.standing !== "delivered") return refuse("cue-unknown");
  return accept({ kind: "observed", studentId, cue, value, observer });
}

/** The end settles every cue that a window was told of; cues not reached yet are simply not counted. */
function decideEnd(state: SessionState, reason: Reason<"ended">): Decision {
  if (state.status === "ended") return accept();
  const events: SessionEventBody[] = [];
  for (const [cue, record] of state.cues) {
    if (record.standing !== "announced") continue;
    events.push({ kind: "undelivered", cue, reason: "session-ended" });
  }
  return accept(...events, { kind: "ended", reason });
}
