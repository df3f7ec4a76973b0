import { Link } from "react-router";
import type { Group } from "../../../shared/roster/roster.ts";
import { useStudents } from "../../api/queries.ts";
import { useAgreed } from "../../home/use-agreed.ts";
import { useFormats, useSay } from "../../text/text.tsx";

/** Pages of what was agreed that are to be looked at again by today. */
export function ReviewLines({ group, today }: { group: Group; today: string }) {
  const say = useSay();
  const formats = useFormats();
  const students = useStudents(group.id).data ?? [];
  return (useAgreed(group.id) ?? []).map(({ studentId, reviewOn }) => {
    const student = students.find(({ id }) => id === studentId);
    if (student === undefined || reviewOn === null || reviewOn > today) return null;
    const { name } = student;
    return (
      <li key={studentId}>
        {say("agreed.reviewDue", { name, day: formats.day(reviewOn) })}{" "}
        <Link
          to={`/groups/${group.id}/students/${studentId}/agreed`}
          aria-label={say("agreed.reviewOpenNamed", { name })}
        >
          {say("agreed.reviewOpen")}
        </Link>
      </li>
    );
  });
}
