import { useMemo } from "react";
import { ownTotals } from "../../../shared/record/own-totals.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { useSay } from "../../text/text.tsx";

/**
 * How many of the students' own cues so far were answered, for the adult. Counted once a minute: a number
 * that changed at each cue would tell when somebody is asked.
 */
export function OwnTotals({ state, seconds }: { state: SessionState; seconds: number }) {
  const say = useSay();
  const minute = Math.floor(seconds / 60);
  // The state changes with every own cue; as a dependency it would count at each, which tells who is asked when.
  // biome-ignore lint/correctness/useExhaustiveDependencies: not when a cue comes, but once a minute
  const totals = useMemo(() => ownTotals(state), [minute, state.status]);
  return (
    <span className="strip-fact">
      <span className="strip-name">{say("ownCues.answered")}</span>
      <span className="strip-value">{say("ownCues.answeredOf", { ...totals })}</span>
    </span>
  );
}
