import { Link } from "react-router";
import { agreementBy, agreementSummary } from "../../../shared/agreement/agreement-summary.ts";
import { fewestForPercent } from "../../../shared/reading/told/own-reading.ts";
import type { LiveSession } from "../../live/use-live-session.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { matchPairs } from "./match-pairs.ts";

/** Fewer compared cues than this say nothing about a class; common practice, no source. */
const fewestCompared = 5;

/** After a practice: how well marks and the teacher's looks match. For the teacher; nothing of it is counted. */
export function PracticeEnd({ live }: { live: LiveSession }) {
  const say = useSay();
  const formats = useFormats();
  const { session, students, state } = live;
  const pairs = matchPairs(state);
  // Nothing was marked, or it has been taken out since.
  const isEmpty =
    state.marks.size === 0 && state.totals.size === 0 && state.spotChecks.length === 0;
  const { percent, mcNemar } = agreementSummary(pairs);
  const byStudent = agreementBy(pairs, ({ studentId }) => studentId);
  const rows = students.flatMap((student) => {
    const of = byStudent.get(student.id)?.percent;
    return of?.kind === "computed" ? [{ student, of }] : [];
  });
  const isReady =
    percent.kind === "computed" && percent.compared >= fewestCompared && percent.value >= 0.8;
  return (
    <section className="session-end">
      <h2>{say("practice.endTitle")}</h2>
      {percent.kind === "computed" ? (
        <>
          <p className="practice-score">
            {say("practice.score", {
              matching: percent.matching,
              compared: percent.compared,
              share: formats.percent(percent.value),
              // The class reads along: counts first, a percentage from twenty on.
              told: percent.compared < fewestForPercent ? "no" : "yes",
            })}
          </p>
          <p>{say(`practice.direction.${mcNemar.direction}`)}</p>
          <p>
            {say(
              percent.compared < fewestCompared
                ? "practice.fewChecks"
                : isReady
                  ? "practice.ready"
                  : "practice.again",
            )}
          </p>
          <table className="today-recent practice-matches" aria-label={say("practice.title")}>
            <thead>
              <tr>
                <th scope="col">{say("end.student")}</th>
                <th scope="col">{say("practice.matches")}</th>
              </tr>
            </thead>
            <tbody>
              {rows.map(({ student, of }) => (
                <tr key={student.id}>
                  <th scope="row">{student.name}</th>
                  <td>
                    {say("practice.matchesOf", { matching: of.matching, compared: of.compared })}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      ) : (
        <p>
          {isEmpty
            ? say("practice.gone")
            : say(
                session.plan.recording === "paper" ? "practice.nothingPaper" : "practice.nothing",
              )}
        </p>
      )}
      <div className="session-end-links">
        <Link className="session-end-main" to="/">
          {say("app.goToday")}
        </Link>
        <Link to={`/groups/${session.groupId}/practice`}>{say("practice.once")}</Link>
        {session.plan.recording === "paper" ? (
          <Link to={`/session/${session.id}/cards`}>{say("end.enterCards")}</Link>
        ) : null}
      </div>
      <p className="today-caution">{say("practice.notKeptHelp")}</p>
    </section>
  );
}
