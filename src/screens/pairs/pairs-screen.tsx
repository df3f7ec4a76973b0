import { Link, useParams } from "react-router";
import type { PairsState } from "../../../shared/api/teams.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import type { PairLesson } from "../../../shared/teams/kept.ts";
import { useGroups, useStudents } from "../../api/queries.ts";
import { usePairs } from "../../class/teams/use-teams.ts";
import { More } from "../../parts/more.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { BeginLesson } from "./begin-lesson.tsx";
import { HeldLesson } from "./held-lesson.tsx";
import "./pairs.css";

/** Who teaches whom: today's lesson in pairs, and those of the term. For the adult. */
export function PairsScreen() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const groups = useGroups().data;
  const group = groups?.find(({ id }) => id === groupId);
  const state = usePairs(groupId);
  const students = useStudents(groupId).data;
  // Who has left since is still named in earlier lessons.
  const archived = useStudents(groupId, true).data;
  if (groups !== undefined && group === undefined) {
    return <Page title={say("error.missing")}>{null}</Page>;
  }
  if (group === undefined || state === undefined || students === undefined) {
    return <Page title={say("pairs.screen")}>{say("wait")}</Page>;
  }
  const everybody = [...students, ...(archived ?? [])];
  const isPrintable = state.lessons.length > 0;
  return (
    <Page
      title={say("pairs.screen")}
      back={<Link to={`/groups/${group.id}`}>{group.name}</Link>}
      lead={say("pairs.lead", { lessons: lessonsOfTerm(students.length) })}
      actions={
        isPrintable ? <Link to={`/print/pairs/${group.id}`}>{say("pairs.print")}</Link> : undefined
      }
    >
      <Lessons groupId={group.id} state={state} students={students} everybody={everybody} />
    </Page>
  );
}

/** After so many lessons everybody has met everybody once. */
const lessonsOfTerm = (students: number): number =>
  students < 2 ? 0 : students % 2 === 0 ? students - 1 : students;

interface LessonsProps {
  groupId: string;
  state: PairsState;
  students: readonly Student[];
  everybody: readonly Student[];
}

function Lessons({ groupId, state, students, everybody }: LessonsProps) {
  const say = useSay();
  const formats = useFormats();
  const { lessons, today } = state;
  const newestFirst = lessons.toReversed();
  const todays = newestFirst.filter(({ day }) => day === today);
  const earlier = newestFirst.filter(({ day }) => day !== today);
  const numberOf = (lesson: PairLesson) => lessons.indexOf(lesson) + 1;
  if (students.length < 2 && lessons.length === 0) {
    return (
      <p>
        {say("pairs.tooFew")} <Link to={`/groups/${groupId}`}>{say("groups.addStudents")}</Link>
      </p>
    );
  }
  return (
    <>
      {todays.map((lesson) => (
        <Section key={lesson.id} title={say("pairs.todaysLesson", { lesson: numberOf(lesson) })}>
          <HeldLesson lesson={lesson} students={everybody} earns={state.earns} />
        </Section>
      ))}
      {students.length < 2 ? null : (
        <Section title={say(todays.length === 0 ? "pairs.today" : "pairs.another")}>
          <BeginLesson
            key={state.absentIds.join()}
            groupId={groupId}
            state={state}
            students={students}
            isMain={todays.length === 0}
          />
        </Section>
      )}
      {earlier.length === 0 ? null : (
        <Section title={say("pairs.earlier")}>
          {earlier.map((lesson) => (
            <More
              key={lesson.id}
              label={say("pairs.earlierLesson", {
                lesson: numberOf(lesson),
                day: formats.fullDay(lesson.day),
              })}
            >
              <HeldLesson lesson={lesson} students={everybody} earns={state.earns} />
            </More>
          ))}
        </Section>
      )}
    </>
  );
}
