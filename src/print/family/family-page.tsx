import { useState } from "react";
import { Link, useParams } from "react-router";
import type { FamilyReading } from "../../../shared/reading/told/family-reading.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import type { Program } from "../../../shared/roster/program.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { useAsk, useSettings } from "../../api/queries.ts";
import { useProgram } from "../../reading/use-program.ts";
import { useCountsOfEach, useFamilyReadings } from "../../reading/use-reading.ts";
import type { Language } from "../../text/catalogue.ts";
import { TextProvider, useSay } from "../../text/text.tsx";
import { usePaperLanguage } from "../home/paper-words.tsx";
import { PrintGap } from "../print-gap.tsx";
import { PrintPage } from "../print-page.tsx";
import { Sheet } from "../sheet.tsx";
import { StudentSwitches, useChosenStudents } from "../student-switches.tsx";
import { FamilyEdit } from "./family-edit.tsx";
import { FamilySheet } from "./family-sheet.tsx";
import "../tables.css";
import "./family.css";

/** A page for each student's family, all in one print job. */
export function FamilyPage() {
  const { groupId = "" } = useParams();
  const { data: each, error } = useCountsOfEach(groupId);
  const program = useProgram(groupId);
  const asked = program === undefined ? undefined : each;
  const reading = useFamilyReadings(asked, program?.goal ?? null);
  const papers = useFamilyPapers(groupId);
  const readings = reading.data;
  if (
    each === undefined ||
    program === undefined ||
    papers === undefined ||
    readings === undefined
  ) {
    return <PrintGap error={error ?? reading.error} isMissing={false} />;
  }
  return <Pages counts={each.ofGroup} readings={readings} program={program} papers={papers} />;
}

/** In which language each family is written to, and what; undefined until it is known. */
function useFamilyPapers(groupId: string) {
  const own = useSettings()?.language;
  // Also while it is asked anew: a page that went away for a moment would take the cursor along.
  const agreed = useAsk("home", ["agreed", groupId], (api) => api.agreed.ofGroup({ groupId })).data;
  const languageOf = usePaperLanguage();
  const words = useAsk("home", ["family-words", groupId], (api) =>
    api.family.words({ groupId }),
  ).data;
  if (own === undefined || agreed === undefined || words === undefined) return undefined;
  return {
    /** The app's language, in which the teacher writes. */
    own,
    languageOf: (id: string): Language =>
      languageOf(agreed.find(({ studentId }) => studentId === id) ?? { language: null }),
    wordsOf: (id: string): string => words.find(({ studentId }) => studentId === id)?.words ?? "",
  };
}
type Papers = NonNullable<ReturnType<typeof useFamilyPapers>>;

interface PagesProps {
  readonly counts: GroupCounts;
  readonly readings: readonly FamilyReading[];
  readonly program: Program;
  readonly papers: Papers;
}

function Pages({ counts, readings, program, papers }: PagesProps) {
  const say = useSay();
  const { group, students, today } = counts;
  const chosen = useChosenStudents(students);
  const shown = chosen.students;
  const isForeign = shown.some(({ id }) => papers.languageOf(id) !== papers.own);
  const title = say("familyPage.title", { group: group.name });
  return (
    <PrintPage
      title={title}
      back={<Link to={`/progress/${group.id}`}>{group.name}</Link>}
      fileName={`${title} ${today}`}
      lead={say("familyPage.lead")}
      options={<StudentSwitches students={students} chosen={chosen} />}
      notes={
        <>
          {isForeign ? <p>{say("familyPage.ownWords")}</p> : null}
          {chosen.notes}
        </>
      }
    >
      {shown.map((student, at) => {
        const reading = readings.find(({ studentId }) => studentId === student.id);
        return reading === undefined ? null : (
          <OnePage
            key={student.id}
            counts={counts}
            student={student}
            reading={reading}
            program={program}
            papers={papers}
            place={{ number: at + 1, count: shown.length }}
          />
        );
      })}
    </PrintPage>
  );
}

interface OnePageProps extends Omit<PagesProps, "readings"> {
  readonly student: Student;
  readonly reading: FamilyReading;
  readonly place: { readonly number: number; readonly count: number };
}

/** One family's sheet, and above it what is changed about it. */
function OnePage({ counts, student, reading, program, papers, place }: OnePageProps) {
  const { group, today } = counts;
  const kept = papers.wordsOf(student.id);
  const [words, setWords] = useState(kept);
  const language = papers.languageOf(student.id);
  const target = student.target === "" ? group.target : student.target;
  return (
    <>
      <FamilyEdit
        studentId={student.id}
        name={student.name}
        language={language}
        words={kept}
        onWords={setWords}
      />
      <TextProvider language={language}>
        <Sheet {...place} kind="text" language={language}>
          <FamilySheet
            group={group}
            student={student}
            reading={reading}
            program={program}
            today={today}
            target={language === papers.own ? target : ""}
            words={words.trim()}
          />
        </Sheet>
      </TextProvider>
    </>
  );
}
