import { Link } from "react-router";
import { selfCounts } from "../../../shared/record/counts.ts";
import { presenceOf } from "../../../shared/record/presence.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { deliveredCount } from "../../../shared/session/state.ts";
import { SessionPointsLinks } from "../../class/points/points-link.tsx";
import { CountSession } from "../../live/count-session.tsx";
import { RateCells } from "../../live/rate-cells.tsx";
import { SessionNotes } from "../../live/session-notes.tsx";
import type { LiveSession } from "../../live/use-live-session.ts";
import { useSay } from "../../text/text.tsx";

/** The session is over: what was recorded, and what to do next. For the teacher, not for the board. */
export function SessionEnd({ live }: { live: LiveSession }) {
  const say = useSay();
  const { session, students, state } = live;
  const rows = students.map((student) => ({
    student,
    counts: selfCounts(state, student.id),
    presence: presenceOf(state, student.id),
  }));
  const isPaper = session.plan.recording === "paper";
  const cues = deliveredCount(state);
  return (
    <section className="session-end">
      <h2>{say("end.title")}</h2>
      <p>{say(state.isOwn ? "ownCues.end" : "end.lead", { cues })}</p>
      <div className="session-end-links">
        {cues === 0 ? null : (
          <Link className="session-end-main" to={`/session/${session.id}/cards`}>
            {say(isPaper ? "end.enterCards" : "end.correct")}
          </Link>
        )}
        <SessionPointsLinks session={session} />
        <Link to={`/progress/${session.groupId}`}>{say("today.seeProgress")}</Link>
      </div>
      <CountSession sessionId={session.id} />
      {cues === 0 ? null : <Marks rows={rows} />}
      <SessionNotes live={live} />
    </section>
  );
}

interface Row {
  readonly student: Student;
  readonly counts: ReturnType<typeof selfCounts>;
  readonly presence: ReturnType<typeof presenceOf>;
}

/** What each student recorded; where no cue came there is nothing to show. */
function Marks({ rows }: { rows: readonly Row[] }) {
  const say = useSay();
  return (
    <>
      <table className="today-recent" aria-label={say("end.title")}>
        <thead>
          <tr>
            <th scope="col">{say("end.student")}</th>
            <th scope="col">{say("end.rate")}</th>
            <th scope="col">{say("end.on")}</th>
            <th scope="col">{say("end.off")}</th>
            <th scope="col">{say("end.missing")}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ student, counts, presence }) => (
            <tr key={student.id}>
              <th scope="row">
                {student.name}
                {presence === "here" || counts === null || counts.on + counts.off === 0 ? null : (
                  <span className="today-facts"> · {say(`roll.presence.${presence}`)}</span>
                )}
              </th>
              {counts === null || counts.on + counts.off === 0 ? (
                <td colSpan={4}>
                  {say("roll.nothing", {
                    presence: counts === null && presence === "here" ? "absent" : presence,
                  })}
                </td>
              ) : (
                <RateCells counts={counts} />
              )}
            </tr>
          ))}
        </tbody>
      </table>
      <p className="today-caution">{say("end.fewCues")}</p>
    </>
  );
}
