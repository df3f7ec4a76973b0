import { Link, useParams } from "react-router";
import { readOwn } from "../../../shared/reading/told/own-reading.ts";
import { countsOf, type EachCounts } from "../../reading/counts-of-each.ts";
import { OwnRecord } from "../../reading/own/own-record.tsx";
import { useGoalOf } from "../../reading/own/use-goal-of.ts";
import { useCountsOfEach } from "../../reading/use-reading.ts";
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
  const { data: each, error } = useCountsOfEach(groupId);
  const goalOf = useGoalOf(groupId);
  if (each === undefined || goalOf === undefined) {
    return <PrintGap error={error} isMissing={false} />;
  }
  return <Halves each={each} goalOf={goalOf} />;
}

interface HalvesProps {
  readonly each: EachCounts;
  readonly goalOf: NonNullable<ReturnType<typeof useGoalOf>>;
}

function Halves({ each, goalOf }: HalvesProps) {
  const say = useSay();
  const { group, students, today } = each.ofGroup;
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
                  own={readOwn(countsOf(each, student.id), student.id)}
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
