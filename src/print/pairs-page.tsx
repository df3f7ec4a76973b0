import { Link, useParams } from "react-router";
import type { Student } from "../../shared/roster/roster.ts";
import type { PairLesson } from "../../shared/teams/kept.ts";
import { useGroups, useStudents } from "../api/queries.ts";
import { useLessonRows } from "../class/teams/lesson-rows.ts";
import { usePairs } from "../class/teams/use-teams.ts";
import { Pick } from "../parts/field.tsx";
import { useFormats, useSay } from "../text/text.tsx";
import { intoSheets } from "./paper.ts";
import { PrintGap } from "./print-gap.tsx";
import { PrintPage } from "./print-page.tsx";
import { Sheet } from "./sheet.tsx";
import { useOption } from "./use-option.ts";
import "./pairs.css";

/** Pairs that fit a sheet, A4 or Letter, beside what a pair does. */
const onSheet = 14;

/** The sheet of one lesson of peer tutoring: who teaches whom, and room for what both got right. */
export function PairsPage() {
  const say = useSay();
  const formats = useFormats();
  const { groupId = "" } = useParams();
  const groups = useGroups();
  const students = useStudents(groupId);
  const archived = useStudents(groupId, true);
  const group = groups.data?.find(({ id }) => id === groupId);
  const state = usePairs(groupId);
  const [lessonId, setLesson] = useOption("lesson", "");
  if (group === undefined || students.data === undefined || state === undefined) {
    const isMissing = groups.data !== undefined && group === undefined;
    return <PrintGap error={groups.error ?? students.error} isMissing={isMissing} />;
  }
  const title = say("pairs.title", { group: group.name });
  const { lessons } = state;
  const lesson = lessons.find(({ id }) => id === lessonId) ?? lessons.at(-1);
  const numberOf = (each: PairLesson) => lessons.indexOf(each) + 1;
  return (
    <PrintPage
      title={title}
      back={<Link to={`/groups/${group.id}/pairs`}>{say("pairs.screen")}</Link>}
      fileName={lesson === undefined ? title : `${title} ${numberOf(lesson)}`}
      options={
        lesson === undefined ? undefined : (
          <Pick
            label={say("pairs.lesson")}
            value={lesson.id}
            onChange={setLesson}
            choices={lessons.toReversed().map((each) => ({
              value: each.id,
              label: say("pairs.earlierLesson", {
                lesson: numberOf(each),
                day: formats.shortDay(each.day),
              }),
            }))}
          />
        )
      }
      notes={lesson === undefined ? <p>{say("pairs.noLesson")}</p> : undefined}
    >
      {lesson === undefined ? null : (
        <LessonSheets
          lesson={state.earns ? lesson : { ...lesson, points: 0 }}
          number={numberOf(lesson)}
          students={[...students.data, ...(archived.data ?? [])]}
          title={title}
        />
      )}
    </PrintPage>
  );
}

function LessonSheets(props: {
  lesson: PairLesson;
  number: number;
  students: readonly Student[];
  title: string;
}) {
  const say = useSay();
  const formats = useFormats();
  const { lesson, number, students, title } = props;
  const rows = useLessonRows(lesson, students);
  const left = rows.find(({ teacher }) => teacher === null);
  const sheets = intoSheets(
    rows.filter(({ teacher }) => teacher !== null),
    onSheet,
  );
  return sheets.map((pairs, index) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: a sheet is its place in the stack
    <Sheet key={index} number={index + 1} count={sheets.length} kind="text">
      <h2>
        {`${title} · ${say("pairs.lessonNumber", { lesson: number })} · ${formats.day(lesson.day)}`}
      </h2>
      <ol className="pairs-steps">
        <li>{say("pairs.step1")}</li>
        <li>{say("pairs.step2")}</li>
        <li>{say("pairs.step3")}</li>
        {lesson.points > 0 ? <li>{say("pairs.step4", { points: lesson.points })}</li> : null}
      </ol>
      <table className="pairs-table" aria-label={title}>
        <thead>
          <tr>
            <th scope="col">{say("pairs.teaches")}</th>
            <th scope="col">{say("pairs.learns")}</th>
            <th scope="col">{say("pairs.right")}</th>
            <th scope="col">{say("pairs.swapped")}</th>
          </tr>
        </thead>
        <tbody>
          {pairs.map(({ key, teacher, learner }) => (
            <tr key={key}>
              <th scope="row">{teacher}</th>
              <td>{learner}</td>
              <td />
              <td />
            </tr>
          ))}
        </tbody>
      </table>
      {left === undefined ? null : <p>{say("pairs.out", { name: left.learner })}</p>}
    </Sheet>
  ));
}
