import type { SessionEvent } from "./event.ts";
import { applyPoints, withAsideTime, withEntered } from "./reduce-points.ts";
import {
  type CueRecord,
  emptySession,
  type MarkRecord,
  observedKey,
  type SessionState,
  type SpotCheckRecord,
} from "./state.ts";

/**
 * The state of a session after one more event.
 *
 * Pure, and never throws: a log is history, so an event that makes no sense where it stands (a resume
 * without a pause, a second report of a cue) changes nothing but the place in the log. An event that is
 * not newer than the state is ignored, so a replay may overlap what is known already.
 */
export function reduce(state: SessionState, event: SessionEvent): SessionState {
  if (event.stamp.seq <= state.lastSeq) return state;
  return {
    ...apply(state, event),
    lastSeq: event.stamp.seq,
    atMs: Math.max(state.atMs, event.stamp.atMs),
  };
}

/** The state after all of a log, or after the rest of one when `from` is given. */
export function replay(
  events: Iterable<SessionEvent>,
  from: SessionState = emptySession,
): SessionState {
  let state = from;
  for (const event of events) state = reduce(state, event);
  return state;
}

function apply(state: SessionState, { body, stamp }: SessionEvent): SessionState {
  switch (body.kind) {
    case "begun":
      return state.status === "ready" ? { ...state, status: "running" } : state;
    case "paused":
      if (state.status === "ended") return state;
      return { ...state, status: "paused", pauseReason: body.reason };
    case "resumed":
      if (state.status !== "paused") return state;
      return { ...state, status: "running", pauseReason: null };
    case "ended":
      if (state.status === "ended") return state;
      return { ...state, status: "ended", endReason: body.reason, endedAtMs: stamp.atMs };
    case "announced":
      // The first verdict on a cue stands: it may not become merely announced again.
      return isSettled(state, body.cue)
        ? state
        : withCue(state, body.cue, { standing: "announced" });
    case "delivered": {
      if (isSettled(state, body.cue)) return state;
      const { by, latenessMs, problem } = body;
      const record: CueRecord = {
        standing: "delivered",
        seq: stamp.seq,
        atMs: stamp.atMs,
        by,
        latenessMs,
        problem,
        aside: state.setAside,
      };
      const openCue = Math.max(state.openCue ?? 0, body.cue);
      return { ...withCue(state, body.cue, record), openCue };
    }
    case "undelivered":
      if (isSettled(state, body.cue)) return state;
      return withCue(state, body.cue, {
        standing: "undelivered",
        reason: body.reason,
        problem: body.problem ?? null,
      });
    case "mark": {
      const { studentId, cue, value, way, late } = body;
      // Who answers was there.
      const here = value === "none" ? state : withSaidAway(state, studentId, cue, false);
      const entered = withEntered(here, studentId, cue, { seq: stamp.seq, value });
      return withMark(entered, studentId, cue, { seq: stamp.seq, value, way, late });
    }
    case "said-away":
      return withSaidAway(state, body.studentId, body.cue, body.away);
    case "total": {
      const { studentId, on, off, way } = body;
      const cleared = withoutPaperMarks(state, studentId);
      const replaced = cleared.totals.has(studentId) ? 1 : 0;
      const total = { seq: stamp.seq, on, off, way };
      return {
        ...withCorrections(cleared, studentId, replaced),
        totals: new Map(cleared.totals).set(studentId, total),
      };
    }
    case "set-aside":
      return {
        ...withAsideTime(state, body.studentId, stamp.atMs, true),
        setAside: new Set(state.setAside).add(body.studentId),
        away: state.status === "ended" ? new Set(state.away).add(body.studentId) : state.away,
      };
    case "back":
      return {
        ...withAsideTime(state, body.studentId, stamp.atMs, false),
        setAside: without(state.setAside, body.studentId),
        away: without(state.away, body.studentId),
      };
    case "spot-check": {
      const { studentId, cue, value, late = false } = body;
      if (cue === null && value === "unseen") return withoutNewestLook(state, studentId);
      const check = { seq: stamp.seq, studentId, cue, value, late };
      return { ...state, spotChecks: [...state.spotChecks, check] };
    }
    case "observed": {
      const { studentId, cue, value, observer } = body;
      const key = observedKey(studentId, cue, observer);
      const record = { seq: stamp.seq, studentId, cue, value, observer };
      return { ...state, observed: new Map(state.observed).set(key, record) };
    }
    case "work":
      return { ...state, work: new Map(state.work).set(body.studentId, body) };
    case "given":
    case "taken":
    case "ungiven":
    case "untaken":
    case "points-stopped":
    case "pluses":
      return applyPoints(state, body, stamp);
    case "interruption": {
      const interruption = { atMs: stamp.atMs, note: body.note };
      return { ...state, interruptions: [...state.interruptions, interruption] };
    }
    case "passed-over":
      return { ...state, passedOver: state.passedOver + 1 };
    case "note":
      return { ...state, notes: [...state.notes, body.text] };
    case "left-out":
      return { ...state, leftOutBecause: body.reason };
    case "taken-in":
      return { ...state, leftOutBecause: null };
  }
}

function isSettled(state: SessionState, cue: number): boolean {
  const standing = state.cues.get(cue)?.standing;
  return standing === "delivered" || standing === "undelivered";
}

function withCue(state: SessionState, cue: number, record: CueRecord): SessionState {
  return { ...state, cues: new Map(state.cues).set(cue, record) };
}

function without(students: ReadonlySet<string>, studentId: string): ReadonlySet<string> {
  return new Set([...students].filter((each) => each !== studentId));
}

/** Nothing seen outside any cue is no look: it takes back the student's newest one. */
function withoutNewestLook(state: SessionState, studentId: string): SessionState {
  const isLook = (check: SpotCheckRecord) => check.cue === null && check.studentId === studentId;
  const newest = state.spotChecks.findLastIndex(isLook);
  return { ...state, spotChecks: state.spotChecks.filter((_, index) => index !== newest) };
}

const says = (mark: MarkRecord | undefined): boolean => mark !== undefined && mark.value !== "none";

function withMark(
  state: SessionState,
  studentId: string,
  cue: number,
  mark: MarkRecord,
): SessionState {
  const ofStudent = new Map(state.marks.get(studentId));
  const before = ofStudent.get(cue);
  ofStudent.set(cue, mark);
  const replaced = says(before) && before?.value !== mark.value ? 1 : 0;
  const marked = { ...state, marks: new Map(state.marks).set(studentId, ofStudent) };
  // Box by box is a fuller record than totals: the first box typed after a total takes its place.
  if (mark.way !== "paper" || !state.totals.has(studentId)) {
    return withCorrections(marked, studentId, replaced);
  }
  const totals = new Map(state.totals);
  totals.delete(studentId);
  return { ...withCorrections(marked, studentId, replaced + 1), totals };
}

function withoutPaperMarks(state: SessionState, studentId: string): SessionState {
  const before = state.marks.get(studentId);
  if (before === undefined) return state;
  const kept = new Map([...before].filter(([, mark]) => mark.way !== "paper"));
  const replaced = [...before.values()].filter((mark) => mark.way === "paper" && says(mark)).length;
  return {
    ...withCorrections(state, studentId, replaced),
    marks: new Map(state.marks).set(studentId, kept),
  };
}

function withSaidAway(
  state: SessionState,
  studentId: string,
  cue: number,
  away: boolean,
): SessionState {
  const before = state.saidAway.get(studentId) ?? new Set<number>();
  if (before.has(cue) === away) return state;
  const cues = new Set(before);
  if (away) cues.add(cue);
  else cues.delete(cue);
  return { ...state, saidAway: new Map(state.saidAway).set(studentId, cues) };
}

function withCorrections(state: SessionState, studentId: string, more: number): SessionState {
  if (more === 0) return state;
  const corrections = new Map(state.corrections);
  corrections.set(studentId, (corrections.get(studentId) ?? 0) + more);
  return { ...state, corrections };
}
