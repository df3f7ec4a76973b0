import { Link, useParams } from "react-router";
import { readOwn } from "../../../shared/reading/told/own-reading.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import { OwnRecord } from "../../own/own-record.tsx";
import { useGoalOf } from "../../own/use-goal-of.ts";
import { useGroupCounts } from "../../reading/use-reading.ts";
import { useSay } from "../../text/text.tsx";
import { intoSheets } from "../paper.ts";
import { PrintGap } from "../print-gap.tsx";
import { PrintPage } from "../print-page.tsx";
import { Sheet } from "../sheet.tsx";
import { StudentSwitches, useChosenStudents } from "../student-switches.tsx";
import "./own-page.css";

/** Halves of a sheet. */
const onSheet = 2;

/** Each child's own record on half a sheet, to be cut apart and kept by the child. */
export function OwnPage() {
  const { groupId = "" } = useParams();
  const counts = useGroupCounts(groupId);
  const goalOf = useGoalOf(groupId);
  if (counts.data === undefined || goalOf === undefined) {
    return <PrintGap error={counts.error} isMissing={false} />;
  }
  return <Halves counts={counts.data} goalOf={goalOf} />;
}

interface HalvesProps {
  readonly counts: GroupCounts;
  readonly goalOf: NonNullable<ReturnType<typeof useGoalOf>>;
}

function Halves({ counts, goalOf }: HalvesProps) {
  const say = useSay();
  const { group, students, today } = counts;
  const chosen = useChosenStudents(students);
  const sheets = intoSheets(chosen.students, onSheet);
  const title = say("own.title", { group: group.name });
  return (
    <PrintPage
      title={title}
      back={<Link to={`/progress/${group.id}`}>{group.name}</Link>}
      fileName={`${title} ${today}`}
      lead={say("own.lead")}
      options={<StudentSwitches students={students} chosen={chosen} />}
      notes={chosen.notes}
    >
      {sheets.map((onOne, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a sheet is its place in the stack
        <Sheet key={at} number={at + 1} count={sheets.length} kind="text">
          <div className="own-halves">
            {onOne.map((student) => (
              <div key={student.id} className="own-half">
                <OwnRecord
                  student={student}
                  own={readOwn(counts, student.id)}
                  goal={goalOf(student)}
                />
              </div>
            ))}
          </div>
        </Sheet>
      ))}
    </PrintPage>
  );
}
