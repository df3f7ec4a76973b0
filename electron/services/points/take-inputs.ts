import type { Session } from "../../../shared/api/sessions.ts";
import { localDay } from "../../../shared/calendar/local-day.ts";
import type { TakeInputs } from "../../../shared/points/guard.ts";
import { undoPressMs } from "../../../shared/session/decide-points.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import type { Ledger } from "../../store/ledger.ts";
import type { WallMoment } from "../base/wall-clock.ts";

/** All that decides whether points may be taken from a student of a session, from the ledger and its log. */
export function takeInputs(
  ledger: Ledger,
  session: Session,
  state: SessionState,
  studentId: string,
  { wallMs, offsetMinutes }: WallMoment,
): TakeInputs {
  const day = localDay(wallMs, offsetMinutes);
  const lastMs = ledger.lastTakeMs(studentId);
  return {
    // A session that went on over midnight has the day on which it began.
    stoppedToday: state.pointsStopped.has(studentId) || ledger.isStopped(studentId, day),
    running: session.kind === "seatwork" && state.status === "running",
    setAside: state.setAside.has(studentId),
    // A clock that was set back says nothing: the wait then begins anew.
    sinceLastTakeMs: lastMs === null ? null : Math.max(0, wallMs - lastMs),
    balance: ledger.balance(studentId),
    today: ledger.givenTakenOn(studentId, day),
    lately: ledger.givenTakenLately(studentId),
  };
}

/** The newest take from a student in this session that can still be taken back; null when there is none. */
export function newestUndoable(
  { presses }: Pick<SessionState, "presses">,
  studentId: string,
  wallMs: number,
): string | null {
  const newest = presses.findLast(
    (each) => each.studentId === studentId && each.kind === "taken" && !each.undone,
  );
  return newest === undefined || wallMs - newest.wallMs > undoPressMs ? null : newest.press;
}
