import { useMemo, useState } from "react";
import { Link } from "react-router";
import type { PlanSettings } from "../../../../shared/plan/plan.ts";
import { evenFadingSteps, fadingList } from "../../../../shared/schedule/fading.ts";
import { Button } from "../../../parts/button.tsx";
import { Choices, TextField } from "../../../parts/field.tsx";
import { freshSeed } from "../../../parts/fresh-seed.ts";
import { useSay } from "../../../text/text.tsx";
import { wordSeconds } from "../../../words/plan-summary.ts";
import { ThinningStep } from "./thinning-step.tsx";
import { sessionsPerStep, stepCounts, useThinningOptions } from "./use-thinning-options.ts";

interface ThinningNoteProps {
  plan: PlanSettings;
  planId: string;
  groupId: string;
  /** Whether the plan is kept as it stands in the form: a key is of the kept plan. */
  isSaved: boolean;
  /** Takes the seed of a session to where a session can be tried out and started. */
  onTry: (seed: string) => void;
}

/**
 * A look ahead: the means this plan could step through, and the sessions of a series with their seeds.
 * Where the program stands is kept elsewhere.
 */
export function ThinningNote({ plan, planId, groupId, isSaved, onTry }: ThinningNoteProps) {
  const say = useSay();
  const [drawn] = useState(freshSeed);
  const { options, ends, change } = useThinningOptions(plan.meanSeconds, drawn);
  const [series, setSeries] = useState(options.series);
  const { first, end, steps, each } = options;
  const list = useMemo(() => {
    const means = evenFadingSteps({
      firstMeanSeconds: first,
      lastMeanSeconds: end,
      steps: Number(steps),
      sessionsPerStep: Number(each),
    });
    const sessions = fadingList(plan, options.series, means);
    return means.map(({ meanSeconds }) =>
      sessions.filter((session) => session.plan.meanSeconds === meanSeconds),
    );
  }, [plan, options.series, first, end, steps, each]);
  const typeSeries = (text: string) => {
    setSeries(text);
    if (text.trim() !== "") change({ series: text.trim() });
  };
  return (
    <section className="plan-thinning" aria-labelledby="thinning-title">
      <h3 id="thinning-title">{say("thinning.title")}</h3>
      <p>
        {say("thinning.help")} <Link to={`/progress/${groupId}`}>{say("thinning.toProgress")}</Link>
      </p>
      {plan.fewestCuesUnthinned === null ? null : (
        <p className="plan-caution">
          {say("thinning.planLowered", { asked: plan.fewestCuesUnthinned, now: plan.fewestCues })}
        </p>
      )}
      <Choices
        label={say("thinning.end")}
        inRow
        value={String(end)}
        choices={ends.map((offered) => ({
          value: String(offered),
          label: wordSeconds(say, offered),
        }))}
        onChange={(value) => change({ to: value })}
      />
      <Choices
        label={say("thinning.steps")}
        inRow
        value={steps}
        choices={stepCounts.map((value) => ({ value, label: value }))}
        onChange={(value) => change({ steps: value })}
      />
      <Choices
        label={say("thinning.each")}
        inRow
        value={each}
        choices={sessionsPerStep.map((value) => ({ value, label: value }))}
        onChange={(value) => change({ each: value })}
      />
      <div className="plan-seed-row">
        <TextField
          label={say("thinning.series")}
          help={say("thinning.seriesHelp")}
          value={series}
          onChange={typeSeries}
          maxLength={60}
          problem={series.trim() === "" ? say("refused.seed-bad") : undefined}
        />
        <Button onPress={() => typeSeries(freshSeed())}>{say("seed.another")}</Button>
      </div>
      {first === plan.meanSeconds ? null : (
        <div className="plan-seed-row">
          <p className="plan-caution">
            {say("thinning.begins", {
              first: wordSeconds(say, first),
              now: wordSeconds(say, plan.meanSeconds),
            })}
          </p>
          <Button onPress={() => change({ from: String(plan.meanSeconds) })}>
            {say("thinning.beginHere")}
          </Button>
        </div>
      )}
      {isSaved ? null : <p className="plan-caution">{say("thinning.saveFirst")}</p>}
      <ol className="plan-steps">
        {list.map((sessions) => (
          <ThinningStep
            key={sessions[0]?.number}
            sessions={sessions}
            keyOf={isSaved ? planId : null}
            onTry={sessions[0]?.plan.meanSeconds === plan.meanSeconds ? onTry : null}
            asked={plan.fewestCuesUnthinned ?? plan.fewestCues}
          />
        ))}
      </ol>
    </section>
  );
}
