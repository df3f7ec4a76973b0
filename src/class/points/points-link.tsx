import { Link } from "react-router";
import type { Session } from "../../../shared/api/sessions.ts";
import { useSay } from "../../text/text.tsx";
import { usePoints, usePointsAllowed } from "./use-points.ts";

/** The way to a group's points; nothing where no plan of the group earns any. */
export function PointsLink({ groupId }: { groupId: string }) {
  const say = useSay();
  const points = usePoints(groupId);
  return points?.on === true ? (
    <Link to={`/groups/${groupId}/points`}>{say("points.title")}</Link>
  ) : null;
}

/** After a session that earned: the quick way through a stack of cards, and the exchange. */
export function SessionPointsLinks({ session }: { session: Session }) {
  const say = useSay();
  const isAllowed = usePointsAllowed();
  if (!isAllowed || session.plan.earning.kind === "none") return null;
  return (
    <>
      {session.plan.recording === "paper" ? (
        <Link to={`/session/${session.id}/quick-totals`}>{say("quick.title")}</Link>
      ) : null}
      <PointsLink groupId={session.groupId} />
    </>
  );
}
