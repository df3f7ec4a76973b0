import type { Group } from "../../../shared/roster/roster.ts";
import { useNextTurn } from "../../live/turn.tsx";
import { useSay } from "../../text/text.tsx";
import { WaitingItem } from "./waiting-item.tsx";

/**
 * Under which of two conditions that take turns the group's next session will be. Put aside, it is said again
 * on the next day, and for the turn after this one.
 */
export function TurnWaiting({ group, today }: { group: Group; today: string }) {
  const say = useSay();
  const turn = useNextTurn(group.id);
  if (turn === null) return null;
  const words = say("designs.turnToday", { group: group.name, ...turn });
  return (
    <WaitingItem what={`turn ${group.id} ${today} ${turn.place}`} named={words}>
      {words}
    </WaitingItem>
  );
}
