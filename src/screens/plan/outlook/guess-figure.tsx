import { areaY, axisX, axisY, lineY, ruleY } from "@observablehq/plot";
import { useMemo } from "react";
import { alertShare, timingError } from "../../../../shared/schedule/listener.ts";
import { Figure, ink } from "../../../charts/figure.tsx";
import type { PlanGuess } from "../../../compute/use-computed.ts";
import { More } from "../../../parts/more.tsx";
import { Notice } from "../../../parts/notice.tsx";
import { useFormats, useSay } from "../../../text/text.tsx";
import { guessWords } from "./guess-words.ts";

/** What a listener who knows the plan could guess about the next cue. */
export function GuessFigure({ guess }: { guess: PlanGuess }) {
  const say = useSay();
  const formats = useFormats();
  const { found } = guess;
  const points = useMemo(() => found.hazard.filter((point) => point.reached > 0.02), [found]);
  const words = guessWords(found);
  const gain = formats.number(words.gain);
  return (
    <div className="plan-guess">
      <Figure
        title={say("guess.title")}
        summary={say(words.sentence, { gain })}
        drawnFrom={[points, say]}
        draw={(width) => ({
          width,
          height: 198,
          marginLeft: 52,
          marginTop: 28,
          marginBottom: 40,
          x: { label: say("guess.since"), domain: [0, points.at(-1)?.toSeconds ?? 1] },
          y: { label: say("guess.perMinute"), zero: true, nice: true },
          marks: [
            areaY(points, {
              x: "fromSeconds",
              y: "cuesPerMinute",
              fill: ink.lakeWash,
              curve: "step-after",
            }),
            lineY(points, {
              x: "fromSeconds",
              y: "cuesPerMinute",
              stroke: ink.lake,
              strokeWidth: 2,
              curve: "step-after",
            }),
            ruleY([0], { stroke: ink.text }),
            axisX({ ticks: 5 }),
            axisY({ ticks: 4, tickFormat: (rate: number) => formats.number(rate, 1) }),
          ],
        })}
        rows={points}
        rowKey={(point) => String(point.fromSeconds)}
        columns={[
          {
            label: say("guess.since"),
            cell: (point) =>
              `${formats.number(point.fromSeconds)}–${formats.number(point.toSeconds)}`,
          },
          {
            label: say("guess.perMinute"),
            cell: (point) => formats.number(point.cuesPerMinute, 2),
          },
          { label: say("guess.reached"), cell: (point) => formats.percent(point.reached) },
        ]}
      />
      {words.forgetful === null ? null : (
        <p className="plan-caution">
          {say("guess.block", { forgetful: formats.number(words.forgetful) })}
        </p>
      )}
      {words.advice === null ? null : <Notice kind="caution">{say(words.advice)}</Notice>}
      <More className="plan-more" label={say("guess.how")}>
        <p>
          {say("guess.howChild", {
            share: formats.percent(alertShare),
            error: formats.percent(timingError),
          })}
        </p>
        <p>{say("guess.howChart")}</p>
        <p>{say(`guess.method.${guess.isFinal ? found.method : "pending"}`)}</p>
      </More>
    </div>
  );
}
