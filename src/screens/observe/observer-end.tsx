import { Link } from "react-router";
import { observerCounts } from "../../../shared/record/counts.ts";
import { deliveredCues } from "../../../shared/session/state.ts";
import { CountSession } from "../../live/count-session.tsx";
import { RateCells } from "../../live/rate-cells.tsx";
import { SessionNotes } from "../../live/session-notes.tsx";
import type { LiveSession } from "../../live/use-live-session.ts";
import { useSay } from "../../text/text.tsx";
import { ObserverAgreement } from "./observer-agreement.tsx";
import { observedStudents } from "./turns.ts";

/** What was observed, kept apart from what students record themselves, and how well two observers agree. */
export function ObserverEnd({ live }: { live: LiveSession }) {
  const say = useSay();
  const { session, state } = live;
  return (
    <section className="session-end">
      <h2>{say("observe.endTitle")}</h2>
      <p>{say("observe.endLead", { looks: deliveredCues(state).length })}</p>
      <div className="session-end-links">
        <Link className="session-end-main" to={`/session/${session.id}/cards`}>
          {say("observe.enterSheet")}
        </Link>
        <Link to={`/progress/${session.groupId}`}>{say("today.seeProgress")}</Link>
      </div>
      <CountSession sessionId={session.id} />
      <table className="today-recent" aria-label={say("observe.endTitle")}>
        <thead>
          <tr>
            <th scope="col">{say("end.student")}</th>
            <th scope="col">{say("observe.rate")}</th>
            <th scope="col">{say("end.on")}</th>
            <th scope="col">{say("end.off")}</th>
            <th scope="col">{say("observe.unseenCount")}</th>
          </tr>
        </thead>
        <tbody>
          {observedStudents(live).map((student) => {
            const counts = observerCounts(state, student.id);
            const looks = counts === null ? 0 : counts.on + counts.off;
            return (
              <tr key={student.id}>
                <th scope="row">{student.name}</th>
                {counts === null || looks === 0 ? (
                  <td colSpan={4}>{say("observe.nothingSeen")}</td>
                ) : (
                  <RateCells counts={counts} />
                )}
              </tr>
            );
          })}
        </tbody>
      </table>
      <ObserverAgreement state={state} />
      <p className="today-caution">{say("observe.apart")}</p>
      <SessionNotes live={live} />
    </section>
  );
}
