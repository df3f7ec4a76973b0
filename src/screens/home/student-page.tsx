import { type ReactNode, useEffect } from "react";
import { Link, useParams } from "react-router";
import type { AgreedPage } from "../../../shared/home/agreed.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { useAsk, useGroups, useStudents, useTimetable } from "../../api/queries.ts";
import { Page } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { forgetForms } from "../../parts/sheet/use-kept-form.ts";
import { useSay } from "../../text/text.tsx";
import "./home.css";

/** What a page about one student begins from. */
export interface Known {
  readonly student: Student;
  readonly agreed: AgreedPage;
  /** Today's school-local day. */
  readonly today: string;
  /** A link back to the group. */
  readonly back: ReactNode;
}

/** Waits until the student of the address is known, then shows the page about them. */
export function StudentPage({ children }: { children: (known: Known) => ReactNode }) {
  const say = useSay();
  const { groupId = "", studentId = "" } = useParams();
  const groups = useGroups();
  const students = useStudents(groupId);
  const agreed = useAsk("home", ["agreed-of", studentId], (api) => api.agreed.of({ studentId }));
  const { data: timetable } = useTimetable();
  const group = groups.data?.find(({ id }) => id === groupId);
  const student = students.data?.find(({ id }) => id === studentId);
  const isMissing = students.data !== undefined && student === undefined;
  // Whoever was erased in another window leaves nothing half written in this one.
  useEffect(() => {
    if (isMissing) forgetForms(studentId);
  }, [isMissing, studentId]);
  if (student !== undefined && agreed.data !== undefined && timetable !== undefined) {
    const back = <Link to={`/groups/${groupId}`}>{group?.name ?? say("nav.groups")}</Link>;
    const { today } = timetable;
    return <div key={studentId}>{children({ student, agreed: agreed.data, today, back })}</div>;
  }
  const error = students.error ?? agreed.error;
  return (
    <Page title={say(isMissing ? "error.missing" : "wait")}>
      <Problem error={error} />
    </Page>
  );
}
