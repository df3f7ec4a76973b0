import { Link } from "react-router";
import type { Group } from "../../../shared/roster/roster.ts";
import { useAsk } from "../../api/queries.ts";
import { useSay } from "../../text/text.tsx";
import { drawnToBegin } from "./awaits.ts";

/** That a program was drawn to begin today, for the group or for some of its students. */
export function StartLine({ group, today }: { group: Group; today: string }) {
  const say = useSay();
  const phases = useAsk("phases", [group.id], (api) => api.phases.list({ groupId: group.id })).data;
  const { whole, students } = drawnToBegin(phases ?? [], today);
  if (!whole && students === 0) return null;
  return (
    <li>
      {whole
        ? say("designs.groupStartsToday", { group: group.name })
        : say("designs.startsToday", { group: group.name, students })}{" "}
      <Link
        to={`/progress/${group.id}`}
        aria-label={say("designs.seeWhoIn", { group: group.name })}
      >
        {say("designs.seeWho")}
      </Link>
    </li>
  );
}
