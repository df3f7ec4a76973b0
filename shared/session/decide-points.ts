import type { GivenReason, SessionEventBody, TakenReason } from "./event.ts";
import type { PressRecord, SessionState } from "./state.ts";

/** Reasons for which a session says no to points. */
export type PointsRefusal =
  | "points-stopped"
  | "points-too-soon"
  | "points-none-left"
  | "points-two-to-one-day"
  | "points-two-to-one-lately"
  | "points-too-late"
  | "points-no-press";

/** How long a press can be taken back, in ms. */
export const undoPressMs = 600_000;

/** What adults ask about points. */
export type PointsCommand =
  | {
      readonly kind: "give";
      readonly studentId: string;
      readonly amount: number;
      readonly why: GivenReason;
      readonly press: string;
    }
  | {
      readonly kind: "take";
      readonly studentId: string;
      readonly amount: number;
      readonly why: TakenReason;
      readonly press: string;
      /** What the guard said: it knows the ledger, which a session does not. */
      readonly verdict: PointsRefusal | "session-not-running" | "student-set-aside" | null;
    }
  /** Takes back a press of points given or taken. */
  | { readonly kind: "undo-press"; readonly studentId: string; readonly press: string }
  | { readonly kind: "stop-points"; readonly studentId: string }
  /** On-task marks counted at a glance, after the end. */
  | {
      readonly kind: "enter-pluses";
      readonly pluses: readonly { readonly studentId: string; readonly on: number }[];
    };

/** What a command about points adds to the log, or the reason why not. */
export type PointsDecision =
  | { readonly ok: true; readonly events: readonly SessionEventBody[] }
  | {
      readonly ok: false;
      readonly refusal:
        | PointsRefusal
        | "session-running"
        | "session-not-running"
        | "session-ended"
        | "student-set-aside";
    };

const accept = (...events: SessionEventBody[]): PointsDecision => ({ ok: true, events });

/**
 * Decides on points as `decide` does on the rest. A press that is in the log already adds nothing, whatever
 * the guard says by now: it was sent twice.
 *
 * @param nowMs session time and time since the end together, in ms
 */
export function decidePoints(
  state: SessionState,
  command: PointsCommand,
  nowMs: number,
): PointsDecision {
  switch (command.kind) {
    case "give": {
      if (pressOf(state, command) !== undefined) return accept();
      const closed = closedFor(state, command.studentId);
      if (closed !== null) return { ok: false, refusal: closed };
      return accept({ ...command, kind: "given" });
    }
    case "take": {
      if (pressOf(state, command) !== undefined) return accept();
      const { verdict, ...asked } = command;
      const refusal = verdict ?? closedFor(state, command.studentId);
      if (refusal !== null) return { ok: false, refusal };
      return accept({ ...asked, kind: "taken" });
    }
    case "undo-press": {
      const press = pressOf(state, command);
      if (press === undefined) return { ok: false, refusal: "points-no-press" };
      if (press.undone) return accept();
      if (nowMs - press.atMs > undoPressMs) return { ok: false, refusal: "points-too-late" };
      return accept(undoing(press));
    }
    case "stop-points":
      if (state.pointsStopped.has(command.studentId)) return accept();
      if (state.status === "ready") return { ok: false, refusal: "session-not-running" };
      return accept({ kind: "points-stopped", studentId: command.studentId });
    case "enter-pluses":
      return decidePluses(state, command.pluses);
  }
}

function pressOf(
  { presses }: SessionState,
  { press, studentId }: { readonly press: string; readonly studentId: string },
): PressRecord | undefined {
  return presses.find((each) => each.press === press && each.studentId === studentId);
}

function closedFor(state: SessionState, studentId: string) {
  if (state.status === "ended") return "session-ended" as const;
  if (state.status === "ready") return "session-not-running" as const;
  return state.setAside.has(studentId) ? ("student-set-aside" as const) : null;
}

const undoing = ({ kind, studentId, seq }: PressRecord): SessionEventBody =>
  kind === "given"
    ? { kind: "ungiven", studentId, givenSeq: seq }
    : { kind: "untaken", studentId, takenSeq: seq };

function decidePluses(
  state: SessionState,
  pluses: readonly { readonly studentId: string; readonly on: number }[],
): PointsDecision {
  if (state.status !== "ended") return { ok: false, refusal: "session-running" };
  if (pluses.some(({ studentId }) => state.setAside.has(studentId))) {
    return { ok: false, refusal: "student-set-aside" };
  }
  const changed = pluses.filter(({ studentId, on }) => state.pluses.get(studentId) !== on);
  return accept(
    ...changed.map(({ studentId, on }) => ({ kind: "pluses", studentId, on }) as const),
  );
}
