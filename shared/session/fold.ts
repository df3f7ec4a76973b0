import { type Draft, draftOf, writable } from "./draft.ts";
import type { EventStamp, SessionEvent } from "./event.ts";
import { foldMark, foldSaidAway, foldTotal } from "./fold-marks.ts";
import { foldAsideTime, foldPoints } from "./fold-points.ts";
import { type CueRecord, observedKey, type SessionState, type SpotCheckRecord } from "./state.ts";

/** The one reading of a session's log, which grows event by event. */
export interface SessionFold {
  /** Takes the next event; one that is not newer than the last is ignored, so a replay may overlap. */
  take(event: SessionEvent): void;
  /** What the log says up to here. Events that are taken later leave this as it is. */
  state(): SessionState;
}

/**
 * Folds a log, from its beginning or on from a state. Whatever is said of a session, live or years later,
 * in a list or in a graph, is computed from such a state.
 *
 * Never throws: a log is history, so an event that makes no sense where it stands (a resume without a
 * pause, a second report of a cue) changes nothing but the place in the log.
 */
export function sessionFold(from?: SessionState): SessionFold {
  let draft = draftOf(from);
  return {
    take(event) {
      const { state } = draft;
      if (event.stamp.seq <= state.lastSeq) return;
      fold(draft, event);
      state.lastSeq = event.stamp.seq;
      state.atMs = Math.max(state.atMs, event.stamp.atMs);
    },
    state() {
      const { state } = draft;
      draft = draftOf(state);
      return state;
    },
  };
}

function fold(draft: Draft, { body, stamp }: SessionEvent): void {
  const { state } = draft;
  switch (body.kind) {
    case "begun":
      if (state.status === "ready") state.status = "running";
      if (body.cueing === "own") state.isOwn = true;
      return;
    case "by-touch":
      state.byTouch = new Set(state.byTouch).add(body.studentId);
      return;
    case "paused":
      if (state.status === "ended") return;
      state.status = "paused";
      state.pauseReason = body.reason;
      return;
    case "resumed":
      if (state.status !== "paused") return;
      state.status = "running";
      state.pauseReason = null;
      return;
    case "ended":
      if (state.status === "ended") return;
      state.status = "ended";
      state.endReason = body.reason;
      state.endedAtMs = stamp.atMs;
      return;
    case "announced":
    case "delivered":
      foldCue(draft, body, stamp);
      return;
    case "undelivered":
      if (body.studentId === undefined || state.isOwn) foldCue(draft, body, stamp);
      else foldUnreached(draft, body.studentId, body.cue);
      return;
    case "mark":
      foldMark(draft, body, stamp);
      return;
    case "said-away":
      foldSaidAway(draft, body.studentId, body.cue, body.away);
      return;
    case "total":
      foldTotal(draft, body, stamp);
      return;
    case "own-goal":
      state.ownGoals = new Map(state.ownGoals).set(body.studentId, body.share);
      return;
    case "set-aside":
      foldAsideTime(draft, body.studentId, stamp.atMs, true);
      state.setAside = new Set(state.setAside).add(body.studentId);
      if (state.status === "ended") state.away = new Set(state.away).add(body.studentId);
      return;
    case "back":
      foldAsideTime(draft, body.studentId, stamp.atMs, false);
      state.setAside = without(state.setAside, body.studentId);
      state.away = without(state.away, body.studentId);
      return;
    case "spot-check":
      state.spotChecks = withCheck(state.spotChecks, { ...body, seq: stamp.seq });
      return;
    case "observed": {
      const { studentId, cue, value, observer } = body;
      const record = { seq: stamp.seq, studentId, cue, value, observer };
      state.observed = writable(draft, state.observed).set(
        observedKey(studentId, cue, observer),
        record,
      );
      return;
    }
    case "work":
      state.work = writable(draft, state.work).set(body.studentId, body);
      return;
    case "given":
    case "taken":
    case "ungiven":
    case "untaken":
    case "points-stopped":
    case "pluses":
      foldPoints(draft, body, stamp);
      return;
    case "interruption":
      state.interruptions = [...state.interruptions, { atMs: stamp.atMs, note: body.note }];
      state.notes = withWords(state.notes, body.note);
      return;
    case "note":
      state.notes = withWords(state.notes, body.text);
      return;
    case "passed-over":
      state.passedOver++;
      return;
    case "left-out":
      state.leftOutBecause = body.reason;
      state.isTrial = body.trial === true;
      return;
    case "taken-in":
      state.leftOutBecause = null;
      state.isTrial = false;
      return;
  }
}

type CueBody = Extract<
  SessionEvent["body"],
  { readonly kind: "announced" | "delivered" | "undelivered" }
>;

/** The first verdict on a cue stands: it may not even become merely announced again. */
function foldCue(draft: Draft, body: CueBody, stamp: EventStamp): void {
  const { state } = draft;
  const { studentId, cue } = body;
  // Where each has cues of their own there is none of the class's, and the other way round.
  if (state.isOwn !== (studentId !== undefined)) return;
  if (studentId !== undefined) {
    foldOwnCue(draft, studentId, body, stamp);
    return;
  }
  if (isSettled(state.cues.get(cue))) return;
  const record = cueRecord(body, stamp, state.setAside);
  state.cues = writable(draft, state.cues).set(cue, record);
  if (body.kind === "delivered") state.openCue = Math.max(state.openCue ?? 0, cue);
}

function foldOwnCue(draft: Draft, studentId: string, body: CueBody, stamp: EventStamp): void {
  const { state } = draft;
  const { cue } = body;
  const before = state.ownCues.get(studentId);
  if (isSettled(before?.get(cue))) return;
  const ofStudent = writable(draft, before);
  ofStudent.set(cue, cueRecord(body, stamp, state.setAside));
  state.ownCues = writable(draft, state.ownCues).set(studentId, ofStudent);
  if (body.kind !== "delivered") return;
  const newest = Math.max(state.ownOpen.get(studentId) ?? 0, cue);
  state.ownOpen = writable(draft, state.ownOpen).set(studentId, newest);
}

const isSettled = (record: CueRecord | undefined): boolean =>
  record?.standing === "delivered" || record?.standing === "undelivered";

function foldUnreached(draft: Draft, studentId: string, cue: number): void {
  const cues = new Set(draft.state.unreached.get(studentId)).add(cue);
  draft.state.unreached = writable(draft, draft.state.unreached).set(studentId, cues);
}

function cueRecord(
  body: CueBody,
  { seq, atMs }: EventStamp,
  aside: ReadonlySet<string>,
): CueRecord {
  switch (body.kind) {
    case "announced":
      return { standing: "announced" };
    case "delivered": {
      const { by, latenessMs, problem } = body;
      return { standing: "delivered", seq, atMs, by, latenessMs, problem, aside };
    }
    case "undelivered":
      return {
        standing: "undelivered",
        reason: body.reason,
        problem: body.problem ?? null,
        atMs,
        aside,
      };
  }
}

function without(students: ReadonlySet<string>, studentId: string): ReadonlySet<string> {
  return new Set([...students].filter((each) => each !== studentId));
}

type Check = Omit<SpotCheckRecord, "late"> & { readonly late?: boolean | undefined };

/** Nothing seen outside any cue is no look: it takes back the student's newest one. */
function withCheck(
  checks: readonly SpotCheckRecord[],
  { seq, studentId, cue, value, late = false }: Check,
): readonly SpotCheckRecord[] {
  if (cue !== null || value !== "unseen") {
    return [...checks, { seq, studentId, cue, value, late }];
  }
  const newest = checks.findLastIndex(
    (check) => check.cue === null && check.studentId === studentId,
  );
  return checks.filter((_, index) => index !== newest);
}

/** An interruption may be noted by one press, without a word. */
const withWords = (notes: readonly string[], words: string): readonly string[] =>
  words.trim() === "" ? notes : [...notes, words];
