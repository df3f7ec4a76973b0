import { type Draft, writable } from "./draft.ts";
import type { EventStamp, SessionEventBody } from "./event.ts";

// What points are computed from, beside the marks themselves.

type PointsBody = Extract<
  SessionEventBody,
  { readonly kind: "given" | "taken" | "ungiven" | "untaken" | "points-stopped" | "pluses" }
>;

/** Takes an event about points. */
export function foldPoints(
  draft: Draft,
  body: PointsBody,
  { seq, atMs, wallMs }: EventStamp,
): void {
  const { state } = draft;
  switch (body.kind) {
    case "given":
    case "taken": {
      const { kind, studentId, amount, press } = body;
      const record = { seq, kind, studentId, amount, press, wallMs, atMs, undone: false };
      state.presses = [...state.presses, record];
      return;
    }
    case "ungiven":
      undo(draft, body.givenSeq, "given");
      return;
    case "untaken":
      undo(draft, body.takenSeq, "taken");
      return;
    case "points-stopped":
      state.pointsStopped = new Set(state.pointsStopped).add(body.studentId);
      return;
    case "pluses":
      state.pluses = writable(draft, state.pluses).set(body.studentId, body.on);
      return;
  }
}

function undo({ state }: Draft, seq: number, kind: "given" | "taken"): void {
  state.presses = state.presses.map((press) =>
    press.seq === seq && press.kind === kind ? { ...press, undone: true } : press,
  );
}

/** Notes when a student was set aside or came back; what comes after the end adds no time. */
export function foldAsideTime(
  draft: Draft,
  studentId: string,
  nowMs: number,
  aside: boolean,
): void {
  const { state } = draft;
  const before = state.asideTime.get(studentId) ?? { ms: 0, sinceMs: null };
  const atMs = Math.min(nowMs, state.endedAtMs ?? nowMs);
  if (aside === (before.sinceMs !== null)) return;
  const time = aside
    ? { ms: before.ms, sinceMs: atMs }
    : { ms: before.ms + atMs - (before.sinceMs ?? atMs), sinceMs: null };
  state.asideTime = writable(draft, state.asideTime).set(studentId, time);
}
