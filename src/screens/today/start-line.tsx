import { Link } from "react-router";
import type { Group } from "../../../shared/roster/roster.ts";
import { useAsk } from "../../api/queries.ts";
import { useSay } from "../../text/text.tsx";
import { type DueChange, drawnChanges } from "./awaits.ts";
import { WaitingItem } from "./waiting-item.tsx";

/** That a program was drawn to begin today, or to be taken away, for the group or for some of its students. */
export function StartLine({ group, today }: { group: Group; today: string }) {
  const phases = useAsk("phases", [group.id], (api) => api.phases.list({ groupId: group.id })).data;
  const { begins, ends } = drawnChanges(phases ?? [], today);
  return (
    <>
      <Change group={group} due={begins} change="begins" today={today} />
      <Change group={group} due={ends} change="ends" today={today} />
    </>
  );
}

interface ChangeProps {
  readonly group: Group;
  readonly due: DueChange;
  readonly change: "begins" | "ends";
  readonly today: string;
}

function Change({ group, due, change, today }: ChangeProps) {
  const say = useSay();
  if (!due.whole && due.students === 0) return null;
  const words = due.whole
    ? say("designs.groupChangesToday", { group: group.name, change })
    : say("designs.changesToday", { group: group.name, students: due.students, change });
  return (
    <WaitingItem what={`${change} ${group.id} ${today}`} named={words}>
      {words}{" "}
      <Link
        to={`/progress/${group.id}`}
        aria-label={say("designs.seeWhoIn", { group: group.name })}
      >
        {say("designs.seeWho")}
      </Link>
    </WaitingItem>
  );
}
