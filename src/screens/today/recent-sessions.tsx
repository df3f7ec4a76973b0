import { Link } from "react-router";
import type { SessionListItem } from "../../../shared/api/sessions.ts";
import { useFormats, useSay } from "../../text/text.tsx";

/** The latest sessions and what still awaits: cards to type in. */
export function RecentSessions({ sessions }: { sessions: readonly SessionListItem[] }) {
  const say = useSay();
  const formats = useFormats();
  return (
    <table className="today-recent">
      <thead>
        <tr>
          <th scope="col">{say("today.when")}</th>
          <th scope="col">{say("today.group")}</th>
          <th scope="col">{say("today.cues")}</th>
          <th scope="col">{say("today.recorded")}</th>
          <th scope="col">{say("today.next")}</th>
        </tr>
      </thead>
      <tbody>
        {sessions.map((session) => (
          <tr key={session.id}>
            <td>
              {formats.day(session.day)}, {formats.time(session.startedMs, session.offsetMinutes)}
            </td>
            <td>{session.groupName}</td>
            <td>{session.cuesDelivered}</td>
            <td>
              {say("today.recordedOf", {
                have: session.studentsRecorded,
                all: session.studentsPresent,
              })}
            </td>
            <td>
              {session.status === "ended" ? (
                <Link to={`/session/${session.id}/cards`}>
                  {session.studentsRecorded < session.studentsPresent
                    ? say("today.enterCards")
                    : say("today.seeCards")}
                </Link>
              ) : (
                <Link to={`/session/${session.id}`}>{say("today.goToSession")}</Link>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
