import type { Group } from "../../../shared/roster/roster.ts";
import { useNextTurn } from "../../live/turn.tsx";
import { useSay } from "../../text/text.tsx";

/** Under which of two conditions that take turns the group's next session will be. */
export function TurnWaiting({ group }: { group: Group }) {
  const say = useSay();
  const turn = useNextTurn(group.id);
  if (turn === null) return null;
  return <li>{say("designs.turnToday", { group: group.name, ...turn })}</li>;
}
