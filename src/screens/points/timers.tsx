import type { PointsState } from "../../../shared/api/points.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

/** Timers that stand before the class now, and those that can be begun for what was exchanged today. */
export function Timers({ points }: { points: PointsState }) {
  const say = useSay();
  const start = useTell((api, privilegeId: string) => api.points.startTimer({ privilegeId }));
  const stop = useTell((api, id: string) => api.points.stopTimer({ id }));
  const had = new Set(
    points.receipts.filter(({ undone }) => !undone).map(({ privilegeId }) => privilegeId),
  );
  const lasting = points.privileges.filter(({ id, minutes }) => minutes !== null && had.has(id));
  if (lasting.length === 0 && points.timers.length === 0) return null;
  return (
    <>
      <div className="points-offers" role="group" aria-label={say("purse.timers")}>
        {lasting.map(({ id, name, minutes }) => (
          <Button key={id} isDisabled={start.isPending} onPress={() => start.mutate(id)}>
            {say("purse.startTimerNamed", { minutes: minutes ?? 0, privilege: name })}
          </Button>
        ))}
      </div>
      <ul className="points-privileges">
        {points.timers.map(({ id, name, leftMs }) => (
          <li key={id}>
            <span className="points-who">
              {say("purse.running", { privilege: name, minutes: Math.ceil(leftMs / 60_000) })}
            </span>
            <Button
              look="quiet"
              aria-label={say("purse.stopTimer", { privilege: name })}
              onPress={() => stop.mutate(id)}
            >
              {say("act.remove")}
            </Button>
          </li>
        ))}
      </ul>
      <Problem error={start.error ?? stop.error} />
    </>
  );
}
