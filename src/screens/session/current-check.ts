import type { SpotCheckMoment } from "../../../shared/agreement/spot-check-draw.ts";
import type { OwnCue } from "../../../shared/schedule/own-schedule.ts";
import { cuesOf, openCueOf, type SessionState } from "../../../shared/session/state.ts";

/** The check that waits to be answered, or has been. */
export interface CurrentCheck {
  readonly cue: number;
  readonly studentIds: readonly string[];
  /** Those of them for whom nothing has been said yet. */
  readonly waiting: ReadonlySet<string>;
  /** The next cue has come since; an answer is kept as late. */
  readonly isLate: boolean;
}

/**
 * The newest check that was drawn for a cue that has come. It waits for its answers until the next check:
 * an adult at the far end of the room finds it on coming back.
 *
 * @param reopened the students of it whose answer was taken back, as `student/cue`
 */
export function currentCheck(
  draw: readonly SpotCheckMoment[],
  state: Pick<SessionState, "openCue" | "setAside" | "spotChecks">,
  reopened: ReadonlySet<string>,
): CurrentCheck | null {
  const { openCue } = state;
  if (openCue === null) return null;
  const moment = draw.findLast(({ cueIndex }) => cueIndex + 1 <= openCue);
  if (moment === undefined) return null;
  const cue = moment.cueIndex + 1;
  const isSaid = (id: string) =>
    !reopened.has(`${id}/${cue}`) &&
    state.spotChecks.some((said) => said.cue === cue && said.studentId === id);
  const waiting = moment.studentIds.filter((id) => !state.setAside.has(id) && !isSaid(id));
  return {
    cue,
    studentIds: moment.studentIds,
    waiting: new Set(waiting),
    isLate: cue !== openCue,
  };
}

/**
 * The newest check that was drawn for a student's own cue that has come. It asks for the one whose cue it is.
 *
 * @param draw as `ownCheckDraw` has it
 */
export function currentOwnCheck(
  draw: readonly OwnCue[],
  state: SessionState,
  reopened: ReadonlySet<string>,
): CurrentCheck | null {
  const moment = draw.findLast(
    ({ studentId, cue }) => cuesOf(state, studentId).get(cue)?.standing === "delivered",
  );
  if (moment === undefined) return null;
  const { studentId, cue } = moment;
  const isSaid =
    !reopened.has(`${studentId}/${cue}`) &&
    state.spotChecks.some((said) => said.cue === cue && said.studentId === studentId);
  const isWaiting = !state.setAside.has(studentId) && !isSaid;
  return {
    cue,
    studentIds: [studentId],
    waiting: new Set(isWaiting ? [studentId] : []),
    isLate: cue !== openCueOf(state, studentId),
  };
}
