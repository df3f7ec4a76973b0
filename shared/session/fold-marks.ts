import { type Draft, writable } from "./draft.ts";
import type { EventStamp, SessionEventBody } from "./event.ts";
import type { MarkRecord } from "./state.ts";

// What students recorded, mark by mark or as the totals of a card.

type BodyOf<Kind extends SessionEventBody["kind"]> = Extract<
  SessionEventBody,
  { readonly kind: Kind }
>;

const says = (mark: MarkRecord | undefined): mark is MarkRecord =>
  mark !== undefined && mark.value !== "none";

/** The newest mark for a cue stands. Box by box is a fuller record: a mark on paper takes a total's place. */
export function foldMark(draft: Draft, body: BodyOf<"mark">, { seq }: EventStamp): void {
  const { state } = draft;
  const { studentId, cue, value, way, late } = body;
  const ofStudent = marksOf(draft, studentId);
  const before = ofStudent.get(cue);
  ofStudent.set(cue, { seq, value, way, late });
  // Who answers was there.
  if (value !== "none") foldSaidAway(draft, studentId, cue, false);
  if (before !== undefined) keepEarlier(draft, studentId, cue, before);
  if (says(before) && before.value !== value) addCorrections(draft, studentId, 1);
  if (way !== "paper" || !state.totals.has(studentId)) return;
  const totals = writable(draft, state.totals);
  totals.delete(studentId);
  state.totals = totals;
  addCorrections(draft, studentId, 1);
}

/** A total takes the place of an earlier one and of what the student marked on paper. */
export function foldTotal(draft: Draft, body: BodyOf<"total">, { seq }: EventStamp): void {
  const { state } = draft;
  const { studentId, on, off, way } = body;
  let replaced = state.totals.has(studentId) ? 1 : 0;
  if (state.marks.has(studentId)) {
    const ofStudent = marksOf(draft, studentId);
    for (const [cue, mark] of ofStudent) {
      if (mark.way !== "paper") continue;
      if (says(mark)) replaced++;
      keepEarlier(draft, studentId, cue, mark);
      ofStudent.delete(cue);
    }
  }
  state.totals = writable(draft, state.totals).set(studentId, { seq, on, off, way });
  addCorrections(draft, studentId, replaced);
}

/** What a student said of having been away at a cue. */
export function foldSaidAway(draft: Draft, studentId: string, cue: number, away: boolean): void {
  const before = draft.state.saidAway.get(studentId);
  if ((before?.has(cue) ?? false) === away) return;
  const cues = new Set(before);
  if (away) cues.add(cue);
  else cues.delete(cue);
  draft.state.saidAway = writable(draft, draft.state.saidAway).set(studentId, cues);
}

function marksOf(draft: Draft, studentId: string): Map<number, MarkRecord> {
  const all = writable(draft, draft.state.marks);
  const before = all.get(studentId);
  const ofStudent = writable(draft, before);
  if (ofStudent !== before) all.set(studentId, ofStudent);
  draft.state.marks = all;
  return ofStudent;
}

function keepEarlier(draft: Draft, studentId: string, cue: number, mark: MarkRecord): void {
  const all = writable(draft, draft.state.earlierMarks);
  const ofStudent = writable(draft, all.get(studentId));
  ofStudent.set(cue, [...(ofStudent.get(cue) ?? []), mark]);
  draft.state.earlierMarks = all.set(studentId, ofStudent);
}

function addCorrections(draft: Draft, studentId: string, more: number): void {
  if (more === 0) return;
  const corrections = writable(draft, draft.state.corrections);
  draft.state.corrections = corrections.set(studentId, (corrections.get(studentId) ?? 0) + more);
}
