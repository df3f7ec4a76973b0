import { Link } from "react-router";
import type { SessionListItem } from "../../../shared/api/sessions.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { awaitsCards } from "./awaits.ts";

/** The latest sessions and what still awaits: cards to type in. */
export function RecentSessions({ sessions }: { sessions: readonly SessionListItem[] }) {
  const say = useSay();
  const formats = useFormats();
  return (
    <table className="today-recent" aria-label={say("today.recent")}>
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
            <th scope="row">
              {formats.day(session.day)}, {formats.time(session.startedMs, session.offsetMinutes)}
            </th>
            <td>
              {session.groupName}
              {session.leftOutBecause === null ? null : (
                <span className="today-facts"> · {say("counting.tag")}</span>
              )}
              {session.kind === "seatwork" ? null : (
                <span className="today-facts"> · {say(`today.kind.${session.kind}`)}</span>
              )}
            </td>
            <td>{session.cuesDelivered}</td>
            <td>
              {say("today.recordedOf", {
                have: session.studentsRecorded,
                all: session.studentsPresent,
              })}
            </td>
            <td>
              <NextStep session={session} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function NextStep({ session }: { session: SessionListItem }) {
  const say = useSay();
  const { id, kind, status } = session;
  if (status !== "ended") return <Link to={`/session/${id}`}>{say("today.goToSession")}</Link>;
  if (kind === "practice") return <Link to={`/session/${id}`}>{say("today.seePractice")}</Link>;
  if (kind !== "seatwork") return <Link to={`/session/${id}`}>{say("today.seeLooks")}</Link>;
  return (
    <Link to={`/session/${id}/cards`}>
      {awaitsCards(session) ? say("today.enterCards") : say("today.seeCards")}
    </Link>
  );
}
