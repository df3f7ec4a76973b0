import { useEffect } from "react";
import { Link, useParams } from "react-router";
import { readOwn } from "../../../shared/reading/told/own-reading.ts";
import { Help } from "../../parts/help/help.tsx";
import { Page } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { OwnRecord } from "../../reading/own/own-record.tsx";
import { useGoalOf } from "../../reading/own/use-goal-of.ts";
import { useStudentCounts } from "../../reading/use-reading.ts";
import { useSay } from "../../text/text.tsx";
import "./own-screen.css";

/** One child's own record, to look at together: nothing on it is another child's, or an adult's word. */
export function OwnScreen() {
  const say = useSay();
  const { groupId = "", studentId = "" } = useParams();
  const counts = useStudentCounts(groupId, studentId);
  const goalOf = useGoalOf(groupId);
  const student = counts.data?.students.find(({ id }) => id === studentId);
  useEffect(() => {
    if (student !== undefined) document.title = `${student.name} · Pebblechime`;
  }, [student]);
  if (counts.data === undefined || student === undefined) {
    const isMissing = counts.data !== undefined;
    return (
      <main id="page">
        <Page title={isMissing ? say("error.missing") : say("wait")}>
          {counts.error === null ? null : <Problem error={counts.error} />}
          {isMissing ? <Link to={`/progress/${groupId}`}>{say("nav.progress")}</Link> : null}
        </Page>
      </main>
    );
  }
  return (
    <div className="own-screen">
      <nav className="own-screen-ways" aria-label={say("own.ways")}>
        <Link to={`/progress/${groupId}/${studentId}`}>{say("own.back")}</Link>
        <Link to={`/print/own/${groupId}?students=${studentId}`}>{say("own.print")}</Link>
        <Help />
      </nav>
      <main id="page" className="own-screen-page">
        <h1 className="only-for-readers">{say("own.of", { name: student.name })}</h1>
        <OwnRecord
          student={student}
          own={readOwn(counts.data, studentId)}
          goal={goalOf?.(student) ?? null}
        />
      </main>
    </div>
  );
}
