import type { Advice } from "../../../shared/advice/advice.ts";
import type { Program } from "../../../shared/roster/program.ts";
import { wordChance } from "../../words/advice-words.ts";
import { useVoice } from "../../words/use-voice.ts";
import { wordStep } from "../../words/words.ts";

/** Every number that the advice was drawn from. */
export function AdviceInputsTable({ advice, program }: { advice: Advice; program: Program }) {
  const voice = useVoice();
  const { say, formats } = voice;
  const { inputs, judged } = advice;
  const { percent } = inputs.agreement;
  const place = wordStep(voice, program.stepMeansSeconds[inputs.place], advice.rung);
  const baselines = (["observer", "self"] as const).flatMap((by) => {
    const rate = inputs.baseline[by];
    return rate === null ? [] : { by, rate };
  });
  const rows = [
    [
      say("advice.input.place"),
      say("advice.place", { step: place, day: formats.shortDay(program.placeSince) }),
    ],
    [say("advice.input.goal"), formats.percent(inputs.goal)],
    [
      say("advice.input.rates"),
      judged.rates.length === 0
        ? say("advice.none")
        : say("advice.judged", {
            rates: judged.rates.map((rate) => formats.percent(rate)).join(", "),
            cues: judged.marks,
          }),
    ],
    [
      say("advice.input.chance"),
      judged.chance === null ? say("advice.none") : wordChance(voice, judged.chance),
    ],
    [
      say("advice.input.work"),
      inputs.work === null
        ? say("advice.none")
        : say("advice.work", {
            now: formats.percent(inputs.work.now),
            before: formats.percent(inputs.work.before),
          }),
    ],
    [say("advice.input.sessions"), formats.number(inputs.sessions.length)],
    [say("advice.input.source"), say(`graph.by.${inputs.source}`)],
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
      baselines.length === 0
        ? say("advice.none")
        : baselines
            .map(({ by, rate }) => `${formats.percent(rate)} · ${say(`graph.by.${by}`)}`)
            .join(", "),
    ],
    // Nothing of points is said of a class that earns none.
    ...(inputs.pointsPaid ? [[say("advice.input.points"), say("advice.points")]] : []),
  ];
  return (
    <>
      <table className="progress-table" aria-label={say("advice.inputs")}>
        <tbody>
          {rows.map(([label, value]) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              <td>{value}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {baselines.length > 0 && baselines.every(({ by }) => by !== inputs.source) ? (
        <p>{say("advice.otherBaseline", { by: inputs.source })}</p>
      ) : null}
      <p>{say("advice.rule")}</p>
    </>
  );
}
