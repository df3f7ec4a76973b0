import { useState } from "react";
import { type Advice, advise } from "../../../shared/analysis/advice.ts";
import type { GroupCounts } from "../../../shared/api/analysis.ts";
import type { Program } from "../../../shared/api/program.ts";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { adviceInputs } from "./advice-inputs.ts";
import { AdviceInputsTable } from "./advice-inputs-table.tsx";
import type { AdviceMaterial } from "./advice-material.ts";
import { ProgramFields } from "./program-fields.tsx";
import { useDecide, useDecisions, useProgram } from "./use-program.ts";
import { useVoice } from "./use-voice.ts";
import { wordStep } from "./words.ts";

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
  if (program === undefined) return null;
  return (
    <Section title={say("progress.next")}>
      <Advised program={program} reading={reading} name={name} />
    </Section>
  );
}

function Advised(props: Pick<AdvicePanelProps, "reading" | "name"> & { program: Program }) {
  const { program, reading, name } = props;
  const voice = useVoice();
  const { say, formats } = voice;
  const [editing, setEditing] = useState(false);
  const advice = advise(adviceInputs(reading.advice, program));
  const moves = advice.toPlace !== advice.inputs.place;
  return (
    <>
      <p className="progress-lead">{say(`advice.${advice.decision}`)}</p>
      <p>
        {say(`advice.reason.${advice.reason}`, {
          name,
          goal: formats.percent(program.goal),
          have: advice.judgedRates.length,
        })}
      </p>
      {moves ? (
        <p>
          {say("advice.to", {
            step: wordStep(voice, program.stepMeansSeconds[advice.toPlace], advice.toRung),
          })}{" "}
          {reading.studentId === undefined ? "" : say("advice.wholeGroup")}
        </p>
      ) : null}
      {advice.askSpecialist ? <Notice>{say("advice.askSpecialist")}</Notice> : null}
      <Decide program={program} advice={advice} studentId={reading.studentId ?? null} />
      <details className="progress-more">
        <summary>{say("advice.inputs")}</summary>
        <AdviceInputsTable advice={advice} program={program} />
        {editing ? (
          <ProgramFields program={program} onDone={() => setEditing(false)} />
        ) : (
          <div>
            <Button onPress={() => setEditing(true)}>{say("program.change")}</Button>
          </div>
        )}
      </details>
    </>
  );
}

/** What the teacher does with the advice; kept with the day and the reason. */
function Decide(props: { program: Program; advice: Advice; studentId: string | null }) {
  const { say, formats } = useVoice();
  const { program, advice, studentId } = props;
  const decide = useDecide(program);
  const [last] = useDecisions(program.groupId, studentId);
  const [note, setNote] = useState("");
  const [overruling, setOverruling] = useState(false);
  const moves = advice.toPlace !== advice.inputs.place;
  const tell = (accepted: boolean) =>
    decide.mutate(
      {
        studentId,
        advice: advice.decision,
        accepted,
        note: note.trim(),
        toPlace: moves ? advice.toPlace : null,
      },
      {
        onSuccess: () => {
          setNote("");
          setOverruling(false);
        },
      },
    );
  return (
    <div className="progress-decide">
      {overruling ? (
        <>
          <TextField
            label={say("advice.why")}
            help={say("advice.whyHelp")}
            value={note}
            onChange={setNote}
            rows={2}
            maxLength={500}
          />
          <div className="progress-form-actions">
            <Button
              look="main"
              isDisabled={note.trim() === "" || decide.isPending}
              onPress={() => tell(false)}
            >
              {say("advice.keepNote")}
            </Button>
            <Button onPress={() => setOverruling(false)}>{say("act.cancel")}</Button>
          </div>
        </>
      ) : (
        <div className="progress-form-actions">
          <Button isDisabled={decide.isPending} onPress={() => tell(true)}>
            {say(moves ? "advice.acceptMove" : "advice.accept")}
          </Button>
          <Button isDisabled={decide.isPending} onPress={() => setOverruling(true)}>
            {say("advice.overrule")}
          </Button>
        </div>
      )}
      <Problem error={decide.error} />
      <p role="status" className="progress-facts">
        {last === undefined
          ? ""
          : say("advice.last", {
              day: formats.day(last.day),
              accepted: last.accepted ? "yes" : "no",
              advice: say(`advice.${last.advice}`),
              note: last.note,
              hasNote: last.note === "" ? "no" : "yes",
            })}
      </p>
    </div>
  );
}
