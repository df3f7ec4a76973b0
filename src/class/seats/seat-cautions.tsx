import { Link } from "react-router";
import { useSettings } from "../../api/queries.ts";
import { Notice } from "../../parts/notice.tsx";
import { useSay } from "../../text/text.tsx";
import { usePointsShown } from "../points/use-points.ts";
import { useSeats } from "./use-seats.ts";

interface SeatCautionsProps {
  groupId: string;
  /** Says where seats are switched on, or made ready, as well. */
  leadsOn?: boolean;
}

/** What to mind before students use devices of their own: what the page knows, light, earphones, the school. */
export function SeatCautions({ groupId, leadsOn = false }: SeatCautionsProps) {
  const say = useSay();
  const settings = useSettings();
  const seats = useSeats(groupId);
  const points = usePointsShown(groupId) ? "yes" : "no";
  if (settings === undefined || seats === undefined) return null;
  return (
    <Notice>
      <p>{say(seats.isSecure ? "seat.caution.knowsSecure" : "seat.caution.knows", { points })}</p>
      <p>
        {say("seat.caution.light")} {say("seat.caution.ear")} {say("seat.caution.policy")}
      </p>
      {leadsOn ? (
        <p>
          {settings.seats ? say("seat.wayOn") : say("seat.isOff")}{" "}
          {settings.seats ? (
            <Link to={`/groups/${groupId}/seats`}>{say("seat.title")}</Link>
          ) : (
            <Link to="/settings">{say("nav.settings")}</Link>
          )}
        </p>
      ) : null}
    </Notice>
  );
}
