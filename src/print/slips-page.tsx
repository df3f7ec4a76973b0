import { Link, useParams } from "react-router";
import type { PointsState } from "../../shared/api/points.ts";
import { useGroups } from "../api/queries.ts";
import { useWilling } from "../class/home/use-agreed.ts";
import { usePoints } from "../class/points/use-points.ts";
import { useFormats, useSay } from "../text/text.tsx";
import { intoSheets } from "./paper.ts";
import { PrintGap } from "./print-gap.tsx";
import { PrintPage } from "./print-page.tsx";
import { Sheet } from "./sheet.tsx";
import { WriteLine } from "./write-line.tsx";
import "./points-paper.css";

/** Slips that fit a sheet, A4 or Letter. */
const onSheet = 8;

/** A slip for each student: earned and spent today, what is there, and what it is saved for. To be cut apart. */
export function SlipsPage() {
  const say = useSay();
  const formats = useFormats();
  const { groupId = "" } = useParams();
  const groups = useGroups();
  const students = useWilling(groupId, "points");
  const group = groups.data?.find(({ id }) => id === groupId);
  const points = usePoints(groupId);
  const isMissing = groups.data !== undefined && students.students !== undefined;
  if (
    group === undefined ||
    students.students === undefined ||
    points === undefined ||
    !points.on
  ) {
    return <PrintGap error={groups.error ?? students.error} isMissing={isMissing} />;
  }
  const title = say("points.slipsTitle", { group: group.name });
  const sheets = intoSheets(students.students, onSheet);
  return (
    <PrintPage
      title={title}
      back={<Link to={`/groups/${group.id}/points`}>{say("points.title")}</Link>}
      fileName={`${title} ${points.day}`}
      lead={say("points.slipsLead")}
    >
      {sheets.map((onOne, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a sheet is its place in the stack
        <Sheet key={at} number={at + 1} count={sheets.length} kind="text">
          <ul className="points-paper-slips">
            {onOne.map(({ id, name }) => {
              const purse = points.purses.find(({ studentId }) => studentId === id);
              return (
                <li key={id}>
                  <h2>{name}</h2>
                  <p>{formats.day(points.day)}</p>
                  <dl>
                    <dt>{say("points.slip.earned")}</dt>
                    <dd>{say("points.count", { points: purse?.earnedToday ?? 0 })}</dd>
                    <dt>{say("points.slip.spent")}</dt>
                    <dd>{say("points.count", { points: purse?.spentToday ?? 0 })}</dd>
                    <dt>{say("points.slip.now")}</dt>
                    <dd>{say("points.count", { points: purse?.balance ?? 0 })}</dd>
                  </dl>
                  <SavingFor points={points} studentId={id} />
                </li>
              );
            })}
          </ul>
        </Sheet>
      ))}
    </PrintPage>
  );
}

/** What a student chose to save for, and how much is missing; a line to write on where nothing was chosen. */
function SavingFor({ points, studentId }: { points: PointsState; studentId: string }) {
  const say = useSay();
  const chosen = points.savingFor.find((each) => each.studentId === studentId);
  const wished = points.privileges.find(({ id }) => id === chosen?.privilegeId);
  if (wished === undefined) return <WriteLine label={say("points.slip.saving")} />;
  const balance = points.purses.find((each) => each.studentId === studentId)?.balance ?? 0;
  return (
    <p>
      {say("points.slip.saving")}: {wished.name} ({wished.price}).{" "}
      {say("points.slip.missing", { missing: Math.max(0, wished.price - balance) })}
    </p>
  );
}
