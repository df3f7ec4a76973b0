import { useMemo } from "react";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { cueSpan } from "../../../shared/schedule/kept-counts.ts";
import { useSay } from "../../text/text.tsx";
import { wordEvery, wordSeconds } from "../../words/plan-summary.ts";

interface PlanHappensProps {
  /** The plan as it was when it last could be run. */
  plan: PlanSettings | null;
  /** Whether it cannot be run as it stands now. */
  isLater: boolean;
}

/** What a session under this plan will be like, in plain sentences. */
export function PlanHappens({ plan, isLater }: PlanHappensProps) {
  const say = useSay();
  const counts = useMemo(() => (plan === null ? null : cueSpan(plan)), [plan]);
  return (
    <section className="plan-happens" aria-labelledby="happens-title">
      <h2 id="happens-title">{say("plan.happens")}</h2>
      {plan === null || counts === null || isLater ? (
        <p>{say("plan.asideLater")}</p>
      ) : (
        <>
          <p className="plan-happens-cues">
            {say("plan.happens.cues", {
              length: wordSeconds(say, plan.lengthSeconds),
              mean: wordEvery(say, plan.meanSeconds),
              cueing: plan.cueing,
              law: plan.law,
            })}{" "}
            {say("plan.happens.count", { ...counts, isSpread: String(counts.least < counts.most) })}
          </p>
          <p>
            {say("plan.happens.recording", {
              recording: plan.cueing === "own" ? "own" : plan.recording,
            })}
          </p>
          <p>
            {say("plan.happens.checks", { pace: plan.checkPace, count: plan.studentsPerCheck })}
          </p>
        </>
      )}
    </section>
  );
}
