import { conditionAt, conditionName, nextTurn } from "../../shared/phase/alternation.ts";
import { useAlternations } from "../api/queries.ts";
import { useSay } from "../text/text.tsx";

/** Which of two conditions that take turns a session has. */
export interface Turn {
  readonly condition: string;
  /** Its place among all sessions of the turns, from 1. */
  readonly place: number;
  readonly sessions: number;
}

/** The turn of the group's next seatwork session; null where no conditions take turns, or no group is known. */
export function useNextTurn(groupId: string | null): Turn | null {
  const alternations = useAlternations(groupId);
  for (const alternation of alternations) {
    const turn = nextTurn(alternation);
    if (turn === null) continue;
    const { order } = alternation;
    const condition = conditionName(alternation, turn.condition);
    return { condition, place: turn.place, sessions: order.length };
  }
  return null;
}

/** The turn that a session took; null where it took none. */
export function useTurnOf(groupId: string, sessionId: string): Turn | null {
  const alternations = useAlternations(groupId);
  for (const alternation of alternations) {
    const held = alternation.sessions.find((session) => session.sessionId === sessionId);
    const { order } = alternation;
    const condition = held === undefined ? null : conditionAt(order, held.place);
    if (held === undefined || condition === null) continue;
    return {
      condition: conditionName(alternation, condition),
      place: held.place,
      sessions: order.length,
    };
  }
  return null;
}

/** Says the condition of a session to the adult; never on a screen that students look at. */
export function TurnLine({ turn }: { turn: Turn }) {
  const say = useSay();
  const { condition, place, sessions } = turn;
  return (
    <p>
      <strong>{say("designs.turnNext", { condition })}</strong>{" "}
      <span className="turn-of">({say("designs.turnOf", { place, sessions })})</span>
    </p>
  );
}
