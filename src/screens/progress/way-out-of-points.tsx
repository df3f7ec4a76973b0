import { Link } from "react-router";
import { isCued, type Rung } from "../../../shared/advice/ladder.ts";
import { usePoints } from "../../class/points/use-points.ts";
import { Notice } from "../../parts/notice.tsx";
import { useSay } from "../../text/text.tsx";

/** Past the last cue points go too, step by step; nothing where none are earned. */
export function WayOutOfPoints({ groupId, toRung }: { groupId: string; toRung: Rung }) {
  const say = useSay();
  const points = usePoints(groupId);
  if (points?.earns !== true || isCued(toRung)) return null;
  return (
    <Notice title={say("thinned.wayOut")}>
      <p>{say(`thinned.wayOut.${toRung}`)}</p>
      <Link to={`/groups/${groupId}/points`}>{say("points.title")}</Link>
    </Notice>
  );
}
