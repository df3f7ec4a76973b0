import { CheckboxGroup, Label } from "react-aria-components";
import { Link, useParams } from "react-router";
import type { Student } from "../../shared/roster/roster.ts";
import { type TutoringRound, tutoringRounds, withoutAbsent } from "../../shared/teams/pairs.ts";
import { useGroups, useStudents } from "../api/queries.ts";
import { CheckBox } from "../parts/check-box.tsx";
import { Pick } from "../parts/field.tsx";
import { useSay } from "../text/text.tsx";
import { intoSheets } from "./paper.ts";
import { PrintGap } from "./print-gap.tsx";
import { PrintPage } from "./print-page.tsx";
import { Sheet } from "./sheet.tsx";
import { useOption } from "./use-option.ts";
import "./pairs.css";

/** Pairs that fit a sheet, A4 or Letter, beside what a pair does. */
const onSheet = 14;

/**
 * Who teaches whom in one lesson of peer tutoring, in the order of the room: over as many lessons as there
 * are students everybody meets everybody once. Nothing of it is kept: the number of the lesson says it all.
 */
export function PairsPage() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const groups = useGroups();
  const students = useStudents(groupId);
  const group = groups.data?.find(({ id }) => id === groupId);
  const [lesson, setLesson] = useOption("lesson", "1");
  const [away, setAway] = useOption("absent", "");
  const list = students.data ?? [];
  if (group === undefined || students.data === undefined) {
    const isMissing = groups.data !== undefined && students.data !== undefined;
    return <PrintGap error={groups.error ?? students.error} isMissing={isMissing} />;
  }
  const title = say("pairs.title", { group: group.name });
  const lessons = list.length < 2 ? [] : tutoringRounds(list.length);
  const at = Math.min(Math.max(1, Number.parseInt(lesson, 10) || 1), Math.max(1, lessons.length));
  const absent = away.split(",").filter((id) => list.some((student) => student.id === id));
  const round = lessons[at - 1];
  const today = round === undefined ? null : pairsToday(lessons, at, absent, list);
  return (
    <PrintPage
      title={title}
      back={<Link to={`/groups/${group.id}`}>{group.name}</Link>}
      fileName={`${title} ${at}`}
      lead={say("pairs.lead", { lessons: lessons.length })}
      options={
        lessons.length === 0 ? undefined : (
          <>
            <Pick
              label={say("pairs.lesson")}
              value={String(at)}
              onChange={setLesson}
              choices={lessons.map((_, index) => ({
                value: String(index + 1),
                label: String(index + 1),
              }))}
            />
            <CheckboxGroup
              className="field pairs-absent"
              value={absent}
              onChange={(ids) => setAway(ids.join(","))}
            >
              <Label className="field-label">{say("pairs.absent")}</Label>
              <div className="pairs-names">
                {list.map(({ id, name }) => (
                  <CheckBox key={id} value={id}>
                    {name}
                  </CheckBox>
                ))}
              </div>
            </CheckboxGroup>
          </>
        )
      }
    >
      {today === null ? (
        <p>{say("pairs.tooFew")}</p>
      ) : (
        <PairSheets today={today} list={list} title={title} lesson={at} />
      )}
    </PrintPage>
  );
}

/** The pairs of a lesson without those who are absent; who has taught less so far teaches first. */
function pairsToday(
  lessons: readonly TutoringRound[],
  lesson: number,
  absent: readonly string[],
  list: readonly Student[],
): TutoringRound | null {
  const round = lessons[lesson - 1];
  if (round === undefined) return null;
  const taught = new Map<number, number>();
  for (const { teacher } of lessons.slice(0, lesson - 1).flatMap(({ pairs }) => pairs)) {
    taught.set(teacher, (taught.get(teacher) ?? 0) + 1);
  }
  const gone = new Set(absent.map((id) => list.findIndex((student) => student.id === id)));
  return withoutAbsent(round, gone, taught);
}

function PairSheets(props: {
  today: TutoringRound;
  list: readonly Student[];
  title: string;
  lesson: number;
}) {
  const say = useSay();
  const { today, list, title, lesson } = props;
  const nameOf = (student: number) => list[student]?.name ?? "";
  const sheets = intoSheets(today.pairs, onSheet);
  return sheets.map((pairs, index) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: a sheet is its place in the stack
    <Sheet key={index} number={index + 1} count={sheets.length} kind="text">
      <h2>{`${title} · ${say("pairs.lessonNumber", { lesson })}`}</h2>
      <ol className="pairs-steps">
        <li>{say("pairs.step1")}</li>
        <li>{say("pairs.step2")}</li>
        <li>{say("pairs.step3")}</li>
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
          {pairs.map(({ teacher, learner }) => (
            <tr key={teacher}>
              <th scope="row">{nameOf(teacher)}</th>
              <td>{nameOf(learner)}</td>
              <td />
              <td />
            </tr>
          ))}
        </tbody>
      </table>
      {today.out === null ? null : <p>{say("pairs.out", { name: nameOf(today.out) })}</p>}
    </Sheet>
  ));
}
