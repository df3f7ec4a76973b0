import type { MarkValue, SeenValue } from "../session/event.ts";
import { cameThrough, deliveredCount, type SessionState } from "../session/state.ts";
import { type MarkCounts, observerCounts, selfCounts } from "./counts.ts";

/** What one session's log comes to in numbers. */
export interface SessionTally {
  /** Where students have own cues, those of all of them together. */
  readonly cuesDelivered: number;
  /** What is missing for a student of whom `self` says nothing: each of the class's cues, none of another's own. */
  readonly unsaid: MarkCounts | null;
  /** Of the students who marked, were ever set aside, were not reached or have own cues; null for who took no part. */
  readonly self: ReadonlyMap<string, MarkCounts | null>;
  /** Who recorded anything: a mark that stands at a delivered cue, or a total. */
  readonly recorded: ReadonlySet<string>;
  /** Of the students whom the first observer watched. */
  readonly observer: ReadonlyMap<string, MarkCounts>;
  /** The newest spot check of each student and cue, beside what the student said there. */
  readonly checks: readonly {
    readonly studentId: string;
    readonly cue: number;
    readonly student: MarkValue;
    readonly seen: SeenValue;
    /** Answered after the next cue had come; absent when it was not. */
    readonly late?: true;
  }[];
  /** Looks outside any cue: a note of what the teacher saw, compared with nothing. */
  readonly freeLooks: readonly { readonly studentId: string; readonly seen: SeenValue }[];
  readonly observerPairs: readonly {
    readonly studentId: string;
    readonly cue: number;
    readonly first: SeenValue;
    readonly second: SeenValue;
  }[];
  readonly work: readonly {
    readonly studentId: string;
    readonly assigned: number;
    readonly completed: number;
    readonly correct: number | null;
  }[];
  /** What was noted and what interrupted, in the order of the log, one a line. */
  readonly note: string;
  /** Why the session is left out of every number; null while it counts. */
  readonly leftOutBecause: string | null;
}

/**
 * Counts one session from what its log says.
 *
 * Example: tallyOf(emptySession).cuesDelivered // 0
 */
export function tallyOf(state: SessionState): SessionTally {
  const recorded = whoRecorded(state);
  const self = new Map<string, MarkCounts | null>();
  for (const id of recorded) self.set(id, selfCounts(state, id));
  for (const id of [
    ...state.asideTime.keys(),
    ...state.unreached.keys(),
    ...state.ownCues.keys(),
  ]) {
    self.set(id, selfCounts(state, id));
  }
  return {
    cuesDelivered: deliveredCount(state),
    unsaid: state.isOwn ? null : { on: 0, off: 0, missing: deliveredCount(state) },
    self,
    recorded,
    observer: observers(state),
    checks: newestChecks(state),
    freeLooks: state.spotChecks.flatMap(({ studentId, cue, value }) =>
      cue === null ? [{ studentId, seen: value }] : [],
    ),
    observerPairs: pairs(state),
    work: [...state.work.values()].map(({ kind: _, ...work }) => work),
    note: state.notes.join("\n"),
    leftOutBecause: state.leftOutBecause,
  };
}

function whoRecorded(state: SessionState): ReadonlySet<string> {
  const recorded = new Set(state.totals.keys());
  for (const [studentId, ofStudent] of state.marks) {
    for (const [cue, { value }] of ofStudent) {
      if (value === "none" || !cameThrough(state, studentId, cue)) continue;
      recorded.add(studentId);
      break;
    }
  }
  return recorded;
}

function observers(state: SessionState): ReadonlyMap<string, MarkCounts> {
  const counts = new Map<string, MarkCounts>();
  for (const id of new Set([...state.observed.values()].map(({ studentId }) => studentId))) {
    const ofStudent = observerCounts(state, id);
    if (ofStudent !== null) counts.set(id, ofStudent);
  }
  return counts;
}

function newestChecks({ spotChecks, marks }: SessionState): SessionTally["checks"] {
  const checks = new Map<string, SessionTally["checks"][number]>();
  for (const { studentId, cue, value, late } of spotChecks) {
    if (cue === null) continue;
    const student = marks.get(studentId)?.get(cue)?.value ?? "none";
    checks.set(`${studentId}/${cue}`, {
      studentId,
      cue,
      student,
      seen: value,
      ...(late ? { late } : {}),
    });
  }
  return [...checks.values()];
}

/** Both observers' newest words on a student and cue, where both said something. */
function pairs({ observed }: SessionState): SessionTally["observerPairs"] {
  const found = new Map<string, { studentId: string; cue: number; words: Map<1 | 2, SeenValue> }>();
  for (const { studentId, cue, observer, value } of observed.values()) {
    const key = `${studentId}/${cue}`;
    const words = found.get(key)?.words ?? new Map<1 | 2, SeenValue>();
    found.set(key, { studentId, cue, words: words.set(observer, value) });
  }
  return [...found.values()].flatMap(({ studentId, cue, words }) => {
    const [first, second] = [words.get(1), words.get(2)];
    return first === undefined || second === undefined ? [] : [{ studentId, cue, first, second }];
  });
}
