import type { EventStamp, SessionEventBody } from "./event.ts";
import type { EnteredMark, SessionState } from "./state.ts";

// What points are computed from, beside the marks themselves.

type PointsBody = Extract<
  SessionEventBody,
  { readonly kind: "given" | "taken" | "ungiven" | "untaken" | "points-stopped" | "pluses" }
>;

/** The state after an event about points. */
export function applyPoints(
  state: SessionState,
  body: PointsBody,
  { seq, atMs, wallMs }: EventStamp,
): SessionState {
  switch (body.kind) {
    case "given":
    case "taken": {
      const { kind, studentId, amount, press } = body;
      const record = { seq, kind, studentId, amount, press, wallMs, atMs, undone: false };
      return { ...state, presses: [...state.presses, record] };
    }
    case "ungiven":
      return withUndone(state, body.givenSeq, "given");
    case "untaken":
      return withUndone(state, body.takenSeq, "taken");
    case "points-stopped":
      return { ...state, pointsStopped: new Set(state.pointsStopped).add(body.studentId) };
    case "pluses":
      return { ...state, pluses: new Map(state.pluses).set(body.studentId, body.on) };
  }
}

function withUndone(state: SessionState, seq: number, kind: "given" | "taken"): SessionState {
  const presses = state.presses.map((press) =>
    press.seq === seq && press.kind === kind ? { ...press, undone: true } : press,
  );
  return { ...state, presses };
}

/** Adds a mark to what was entered for a cue. */
export function withEntered(
  state: SessionState,
  studentId: string,
  cue: number,
  mark: EnteredMark,
): SessionState {
  const ofStudent = new Map(state.entered.get(studentId));
  ofStudent.set(cue, [...(ofStudent.get(cue) ?? []), mark]);
  return { ...state, entered: new Map(state.entered).set(studentId, ofStudent) };
}

/** Notes when a student was set aside or came back; what comes after the end adds no time. */
export function withAsideTime(
  state: SessionState,
  studentId: string,
  nowMs: number,
  aside: boolean,
): SessionState {
  const before = state.asideTime.get(studentId) ?? { ms: 0, sinceMs: null };
  const atMs = Math.min(nowMs, state.endedAtMs ?? nowMs);
  if (aside === (before.sinceMs !== null)) return state;
  const time = aside
    ? { ms: before.ms, sinceMs: atMs }
    : { ms: before.ms + atMs - (before.sinceMs ?? atMs), sinceMs: null };
  return { ...state, asideTime: new Map(state.asideTime).set(studentId, time) };
}
