import { Link } from "react-router";
import type { Group } from "../../../shared/roster/roster.ts";
import { useAsk } from "../../api/queries.ts";
import { useSay } from "../../text/text.tsx";
import { type DueChange, drawnChanges } from "./awaits.ts";

/** That a program was drawn to begin today, or to be taken away, for the group or for some of its students. */
export function StartLine({ group, today }: { group: Group; today: string }) {
  const phases = useAsk("phases", [group.id], (api) => api.phases.list({ groupId: group.id })).data;
  const { begins, ends } = drawnChanges(phases ?? [], today);
  return (
    <>
      <Change group={group} due={begins} change="begins" />
      <Change group={group} due={ends} change="ends" />
    </>
  );
}

function Change(props: { group: Group; due: DueChange; change: "begins" | "ends" }) {
  const say = useSay();
  const { group, due, change } = props;
  if (!due.whole && due.students === 0) return null;
  return (
    <li>
      {due.whole
        ? say("designs.groupChangesToday", { group: group.name, change })
        : say("designs.changesToday", { group: group.name, students: due.students, change })}{" "}
      <Link
        to={`/progress/${group.id}`}
        aria-label={say("designs.seeWhoIn", { group: group.name })}
      >
        {say("designs.seeWho")}
      </Link>
    </li>
  );
}
