import { useState } from "react";
import { Link } from "react-router";
import {
  type AgreedAnswer,
  type AgreedLine,
  type AgreedPage,
  type AgreedSaid,
  agreedAnswers,
  linesAsked,
  paperLanguages,
  standsFor,
  takesPart,
} from "../../../shared/home/agreed.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { useTell } from "../../api/queries.ts";
import { usePointsShown } from "../../class/points/use-points.ts";
import { announce } from "../../parts/announcer.tsx";
import { Button } from "../../parts/button.tsx";
import { Choices, Pick, TextField } from "../../parts/field.tsx";
import { DayField } from "../../parts/moment-field.tsx";
import { More } from "../../parts/more.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { StudentPage } from "./student-page.tsx";

/** What was agreed about one student: five answers, each with its day and who gave it. */
export function AgreedScreen() {
  const say = useSay();
  return (
    <StudentPage>
      {({ student, agreed, today, back }) => (
        <Page
          title={say("agreed.title", { name: student.name })}
          back={back}
          lead={say("agreed.lead", { name: student.name })}
          actions={
            <Link to={`/print/agreed/${student.groupId}/${student.id}`}>{say("agreed.print")}</Link>
          }
        >
          <Answers student={student} agreed={agreed} today={today} />
          <Papers student={student} agreed={agreed} />
          <p className="home-help">{say("agreed.caution")}</p>
        </Page>
      )}
    </StudentPage>
  );
}

function Answers(props: { student: Student; agreed: AgreedPage; today: string }) {
  const say = useSay();
  const { student, agreed, today } = props;
  const { said } = agreed;
  const asked = linesAsked(usePointsShown(student.groupId));
  const [who, setWho] = useState("");
  const [day, setDay] = useState(today);
  const tell = useTell((api, said: AgreedSaid) => api.agreed.say({ studentId: student.id, said }));
  const press = (line: AgreedLine, answer: AgreedAnswer) =>
    tell.mutate(
      { line, answer, day, who: who.trim() },
      {
        onSuccess: () =>
          announce(
            say("agreed.saidNow", {
              line: say(`agreed.line.${line}`),
              answer: say(`agreed.answer.${answer}`),
            }),
          ),
      },
    );
  return (
    <Section title={say("agreed.answers")}>
      <div className="home-row">
        <TextField
          label={say("agreed.who")}
          help={say("agreed.whoHelp")}
          value={who}
          onChange={setWho}
          maxLength={60}
        />
        <DayField label={say("agreed.day")} value={day} onChange={setDay} />
      </div>
      <ul className="home-lines">
        {asked.map((line) => (
          <li key={line}>
            <Choices
              label={say(`agreed.line.${line}`)}
              help={say(`agreed.help.${line}`, { name: student.name })}
              inRow
              value={standsFor(said, line)?.answer ?? "open"}
              onChange={(answer) => press(line, answer)}
              choices={agreedAnswers.map((value) => ({
                value,
                label: say(`agreed.answer.${value}`),
              }))}
            />
            <SaidNote said={standsFor(said, line)} />
          </li>
        ))}
      </ul>
      <Problem error={tell.error} />
      {takesPart(said) ? null : (
        <Notice title={say("agreed.outside", { name: student.name })}>
          <p>{say("agreed.outsideHelp", { name: student.name })}</p>
        </Notice>
      )}
      <History said={said.filter(({ line }) => asked.includes(line))} />
    </Section>
  );
}

const hasWho = (who: string) => (who === "" ? "no" : "yes");

/** When an answer was given, and by whom; it keeps its place while there is none. */
function SaidNote({ said }: { said: AgreedSaid | null }) {
  const say = useSay();
  const formats = useFormats();
  return (
    <p className="home-said">
      {said === null
        ? null
        : say("agreed.said", {
            day: formats.fullDay(said.day),
            who: said.who,
            hasWho: hasWho(said.who),
          })}
    </p>
  );
}

function History({ said }: { said: readonly AgreedSaid[] }) {
  const say = useSay();
  const formats = useFormats();
  if (said.length === 0) return null;
  return (
    <More label={say("agreed.history", { count: said.length })}>
      <ol className="home-history">
        {said.map(({ line, answer, day, who }, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: answers are only ever added at the end
          <li key={at}>
            {say("agreed.historyLine", {
              day: formats.fullDay(day),
              line: say(`agreed.line.${line}`),
              answer: say(`agreed.answer.${answer}`),
              who,
              hasWho: hasWho(who),
            })}
          </li>
        ))}
      </ol>
    </More>
  );
}

const languageChoices = ["own", ...paperLanguages] as const;

/** When the page is looked at again, and in which language papers are. */
function Papers({ student, agreed }: { student: Student; agreed: AgreedPage }) {
  const say = useSay();
  const save = useTell((api, change: Partial<AgreedPage>) =>
    api.agreed.savePaper({ ...change, studentId: student.id }),
  );
  return (
    <Section title={say("agreed.papers")}>
      <div className="home-row">
        <DayField
          label={say("agreed.review")}
          help={say("agreed.reviewHelp")}
          value={agreed.reviewOn ?? ""}
          onChange={(reviewOn) => save.mutate({ reviewOn })}
        />
        <div className="home-beside">
          <Button
            look="quiet"
            isDisabled={agreed.reviewOn === null || save.isPending}
            onPress={() => save.mutate({ reviewOn: null })}
          >
            {say("agreed.noReview")}
          </Button>
        </div>
        <Pick
          label={say("agreed.language", { name: student.name })}
          help={say("agreed.languageHelp", { name: student.name })}
          value={agreed.language ?? "own"}
          onChange={(language) => save.mutate({ language: language === "own" ? null : language })}
          choices={languageChoices.map((value) => ({
            value,
            label: say(`agreed.language.${value}`),
          }))}
        />
      </div>
      <Problem error={save.error} />
    </Section>
  );
}
