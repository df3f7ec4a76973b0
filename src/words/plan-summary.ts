import type { PlanSettings } from "../../shared/plan/plan.ts";
import { useSay } from "../text/text.tsx";

/** One line that says what a session under a plan is like. */
export function usePlanSummary() {
  const say = useSay();
  return (plan: PlanSettings): string =>
    say("plan.summary", {
      minutes: plan.lengthSeconds / 60,
      mean: wordEvery(say, plan.meanSeconds),
      recording: plan.recording,
      cueing: plan.cueing,
    });
}

/** After "every": 60 -> "minute", 120 -> "2 minutes". */
export function wordEvery(say: ReturnType<typeof useSay>, seconds: number): string {
  return seconds === 60 ? say("plan.everyMinute") : wordSeconds(say, seconds);
}

/** 90 -> "90 seconds", 120 -> "2 minutes". */
export function wordSeconds(say: ReturnType<typeof useSay>, seconds: number): string {
  return seconds >= 60 && seconds % 30 === 0
    ? say("plan.minutes", { count: seconds / 60 })
    : say("plan.seconds", { count: Math.round(seconds * 10) / 10 });
}
