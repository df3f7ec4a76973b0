import { Link, useParams } from "react-router";
import { languages } from "../../../shared/api/app.ts";
import type { FamilyReading } from "../../../shared/reading/told/family-reading.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import { useSettings } from "../../api/queries.ts";
import { Choices } from "../../parts/field.tsx";
import { useProgram } from "../../reading/use-program.ts";
import { useGroupCounts, useReading } from "../../reading/use-reading.ts";
import type { Language } from "../../text/catalogue.ts";
import { TextProvider, useSay } from "../../text/text.tsx";
import { PrintGap } from "../print-gap.tsx";
import { PrintPage } from "../print-page.tsx";
import { Sheet } from "../sheet.tsx";
import { StudentSwitches, useChosenStudents } from "../student-switches.tsx";
import { useChoice } from "../use-option.ts";
import { FamilySheet } from "./family-sheet.tsx";
import "../tables.css";
import "./family.css";

/** A page for each student's family, all in one print job. */
export function FamilyPage() {
  const { groupId = "" } = useParams();
  const counts = useGroupCounts(groupId);
  const program = useProgram(groupId);
  const asked = program === undefined ? undefined : counts.data;
  const reading = useReading(asked, { kind: "families", goal: program?.goal ?? null });
  const settings = useSettings();
  const answer = reading.data;
  if (counts.data === undefined || settings === undefined || answer?.kind !== "families") {
    return <PrintGap error={counts.error ?? reading.error} isMissing={false} />;
  }
  return <Pages counts={counts.data} readings={answer.readings} ownLanguage={settings.language} />;
}

interface PagesProps {
  readonly counts: GroupCounts;
  readonly readings: readonly FamilyReading[];
  /** The language of the app, in which the teacher writes. */
  readonly ownLanguage: Language;
}

function Pages({ counts, readings, ownLanguage }: PagesProps) {
  const say = useSay();
  const { group, students, today } = counts;
  const program = useProgram(group.id);
  const [language, setLanguage] = useChoice("language", languages, ownLanguage);
  const chosen = useChosenStudents(students);
  const shown = chosen.students;
  const title = say("familyPage.title", { group: group.name });
  return (
    <PrintPage
      title={title}
      back={<Link to={`/progress/${group.id}`}>{group.name}</Link>}
      fileName={`${title} ${today}`}
      lead={say("familyPage.lead")}
      options={
        <>
          <Choices
            label={say("familyPage.language")}
            inRow
            value={language}
            choices={languages.map((value) => ({
              value,
              label: say(`settings.language.${value}`),
            }))}
            onChange={setLanguage}
          />
          <StudentSwitches students={students} chosen={chosen} />
        </>
      }
      notes={
        <>
          {language === ownLanguage ? null : <p>{say("familyPage.ownWords")}</p>}
          {chosen.notes}
        </>
      }
    >
      {shown.map((student, at) => {
        const reading = readings.find(({ studentId }) => studentId === student.id);
        return reading === undefined ? null : (
          <TextProvider key={student.id} language={language}>
            <Sheet number={at + 1} count={shown.length} kind="text" language={language}>
              <FamilySheet
                group={group}
                student={student}
                reading={reading}
                program={program}
                today={today}
                target={
                  language === ownLanguage
                    ? student.target === ""
                      ? group.target
                      : student.target
                    : ""
                }
              />
            </Sheet>
          </TextProvider>
        );
      })}
    </PrintPage>
  );
}
