import { useState } from "react";
import { type Advice, advise } from "../../../shared/advice/advice.ts";
import { adviceInputs } from "../../../shared/reading/advice-inputs.ts";
import type { AdviceMaterial } from "../../../shared/reading/advice-material.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import { type Program, programFor } from "../../../shared/roster/program.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { Button } from "../../parts/button.tsx";
import { More } from "../../parts/more.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Section } from "../../parts/page.tsx";
import { useProgram } from "../../reading/use-program.ts";
import { wordDecision, wordReason, wordThen } from "../../words/advice-words.ts";
import { useVoice } from "../../words/use-voice.ts";
import { wordStep } from "../../words/words.ts";
import { AdviceDecide } from "./advice-decide.tsx";
import { AdviceInputsTable } from "./advice-inputs-table.tsx";
import { ProgramFields } from "./program-fields.tsx";

interface AdvicePanelProps {
  readonly counts: GroupCounts;
  /** A student's reading, or the group's. */
  readonly reading: { readonly advice: AdviceMaterial; readonly studentId?: string };
  readonly name: string;
}

/** What next: the rule's advice with its reason and its inputs, to accept or to overrule. */
export function AdvicePanel({ counts, reading, name }: AdvicePanelProps) {
  const { say } = useVoice();
  const program = useProgram(counts.group.id);
  const student = counts.students.find(({ id }) => id === reading.studentId);
  if (program === undefined) return null;
  return (
    <Section title={say("progress.next")}>
      <Advised program={program} student={student} reading={reading} name={name} />
    </Section>
  );
}

interface AdvisedProps extends Pick<AdvicePanelProps, "reading" | "name"> {
  /** The group's; what is changed here is the group's. */
  readonly program: Program;
  readonly student: Student | undefined;
}

function Advised({ program, student, reading, name }: AdvisedProps) {
  const voice = useVoice();
  const { say } = voice;
  const [editing, setEditing] = useState(false);
  const advice = advise(adviceInputs(reading.advice, programFor(program, student)));
  return (
    <>
      <p className="progress-lead">{wordDecision(voice, advice)}</p>
      <p>{wordReason(voice, advice, name)}</p>
      {moves(advice) ? (
        <p>
          {say("advice.to", {
            step: wordStep(voice, program.stepMeansSeconds[advice.toPlace], advice.toRung),
          })}{" "}
          {wordThen(voice, advice.toRung)}{" "}
          {reading.studentId === undefined ? "" : say("advice.wholeGroup")}
        </p>
      ) : null}
      {advice.askSpecialist ? <Notice>{say("advice.askSpecialist")}</Notice> : null}
      <AdviceDecide program={program} advice={advice} studentId={reading.studentId ?? null} />
      <More className="progress-more" label={say("advice.inputs")}>
        <AdviceInputsTable advice={advice} program={program} />
        {editing ? (
          <ProgramFields program={program} onDone={() => setEditing(false)} />
        ) : (
          <div>
            <Button onPress={() => setEditing(true)}>{say("program.change")}</Button>
          </div>
        )}
      </More>
    </>
  );
}

const moves = ({ toPlace, inputs }: Advice): boolean => toPlace !== inputs.place;
