import { Link } from "react-router";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import type { Group } from "../../../shared/roster/roster.ts";
import { useAsk } from "../../api/queries.ts";
import { useSay } from "../../text/text.tsx";
import { awaitsProbe } from "./awaits.ts";
import { WaitingItem } from "./waiting-item.tsx";

/** That a probe was drawn for today, until one is held. */
export function ProbeLine(props: { group: Group; counts: GroupCounts; today: string }) {
  const say = useSay();
  const { group, counts, today } = props;
  const phases = useAsk("phases", [group.id], (api) => api.phases.list({ groupId: group.id })).data;
  if (!awaitsProbe(phases ?? [], counts.sessions, today)) return null;
  const words = say("today.probe", { group: group.name });
  return (
    <WaitingItem what={`probe ${group.id} ${today}`} named={words}>
      {words}{" "}
      <Link
        to={`/groups/${group.id}/observe?kind=probe`}
        aria-label={say("today.probeStartIn", { group: group.name })}
      >
        {say("today.probeStart")}
      </Link>
    </WaitingItem>
  );
}
