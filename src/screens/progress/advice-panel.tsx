import { Link } from "react-router";
import type { Advice } from "../../../shared/analysis/advice.ts";
import type { GroupCounts } from "../../../shared/api/analysis.ts";
import { Notice } from "../../parts/notice.tsx";
import { Section } from "../../parts/page.tsx";
import { wordSeconds } from "../today/plan-summary.ts";
import { adviceFor } from "./advice-for.ts";
import type { AdviceMaterial } from "./advice-material.ts";
import { type ProgramPlace, useProgram } from "./use-program.ts";
import { useVoice } from "./use-voice.ts";
import type { Voice } from "./words.ts";

interface AdvicePanelProps {
  readonly counts: GroupCounts;
  /** A student's reading, or the group's. */
  readonly reading: { readonly advice: AdviceMaterial; readonly studentId?: string };
  readonly name: string;
}

/** What next: the rule's advice with its reason and its inputs, to accept or to overrule. */
export function AdvicePanel({ counts, reading, name }: AdvicePanelProps) {
  const voice = useVoice();
  const { say, formats } = voice;
  const program = useProgram(counts.group.id);
  const advice = adviceFor(reading.advice, program);
  return (
    <Section title={say("progress.next")}>
      <p className="progress-lead">{say(`advice.${advice.decision}`)}</p>
      <p>
        {say(`advice.reason.${advice.reason}`, {
          name,
          goal: formats.percent(program.goal),
          have: advice.judgedRates.length,
        })}
      </p>
      {advice.toPlace === advice.inputs.place ? null : (
        <p>
          {say("advice.to", { step: wordStep(voice, program, advice.toPlace, advice.toRung) })}{" "}
          {reading.studentId === undefined ? "" : say("advice.wholeGroup")}
        </p>
      )}
      {advice.askSpecialist ? <Notice>{say("advice.askSpecialist")}</Notice> : null}
      <details className="progress-more">
        <summary>{say("advice.inputs")}</summary>
        <Inputs advice={advice} program={program} />
      </details>
      <Decide counts={counts} advice={advice} studentId={reading.studentId ?? null} />
    </Section>
  );
}

function wordStep(
  voice: Voice,
  program: ProgramPlace,
  place: number,
  rung: Advice["rung"],
): string {
  const mean = program.stepMeansSeconds[place];
  return mean === undefined
    ? voice.say(`rung.${rung}`)
    : voice.say("advice.step", { mean: wordSeconds(voice.say, mean) });
}

function Inputs({ advice, program }: { advice: Advice; program: ProgramPlace }) {
  const voice = useVoice();
  const { say, formats } = voice;
  const { inputs, judgedRates } = advice;
  const { percent } = inputs.agreement;
  const rows = [
    [say("advice.input.place"), wordStep(voice, program, inputs.place, advice.rung)],
    [say("advice.input.goal"), formats.percent(inputs.goal)],
    [
      say("advice.input.rates"),
      judgedRates.length === 0 ? say("advice.none") : judgedRates.map(formats.percent).join(", "),
    ],
    [say("advice.input.sessions"), formats.number(inputs.sessions.length)],
    [
      say("advice.input.agreement"),
      percent.kind === "computed"
        ? say("advice.agreement", {
            share: formats.percent(percent.value),
            compared: percent.compared,
          })
        : say("advice.none"),
    ],
    [
      say("advice.input.checked"),
      inputs.sessionsSinceCheck === null
        ? say("advice.neverChecked")
        : say("advice.checked", { sessions: inputs.sessionsSinceCheck }),
    ],
    [
      say("advice.input.baseline"),
      inputs.baseline === null ? say("advice.none") : formats.percent(inputs.baseline),
    ],
    [say("advice.input.points"), say("advice.points", { paid: inputs.pointsPaid ? "yes" : "no" })],
  ];
  return (
    <>
      <table className="progress-table">
        <tbody>
          {rows.map(([label, value]) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              <td>{value}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>{say("advice.rule")}</p>
    </>
  );
}

/** What the teacher does with the advice. */
function Decide(props: { counts: GroupCounts; advice: Advice; studentId: string | null }) {
  const { say } = useVoice();
  return (
    <p>
      {say("advice.yours")}{" "}
      <Link to={`/groups/${props.counts.group.id}`}>{props.counts.group.name}</Link>
    </p>
  );
}
