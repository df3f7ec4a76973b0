import { useMemo } from "react";
import { Link } from "react-router";
import type { FadedSession } from "../../../../shared/schedule/fading.ts";
import { expectedCues } from "../../../../shared/schedule/kept-counts.ts";
import { sessionSchedule } from "../../../../shared/schedule/session-schedule.ts";
import { Button } from "../../../parts/button.tsx";
import { More } from "../../../parts/more.tsx";
import { useFormats, useSay } from "../../../text/text.tsx";
import { wordPlanProblem } from "../fields/word-problem.ts";

interface ThinningStepProps {
  /** The sessions of one step, all under one plan. */
  readonly sessions: readonly FadedSession[];
  /** The plan whose key a session's link opens; null while that would be another plan's. */
  readonly keyOf: string | null;
  /** Takes a session's seed to where it can be started; null where the plan does not stand at this step. */
  readonly onTry: ((seed: string) => void) | null;
  /** The fewest cues that were asked for. */
  readonly asked: number;
}

/** One step of a thinning list: what it is like, and its sessions with their seeds. */
export function ThinningStep({ sessions, keyOf, onTry, asked }: ThinningStepProps) {
  const say = useSay();
  const formats = useFormats();
  const plan = sessions[0]?.plan;
  const problem = sessions[0]?.problems[0];
  if (plan === undefined) return null;
  const mean = formats.clock(plan.meanSeconds);
  if (problem !== undefined) {
    return <li>{say("thinning.stepRefused", { mean, why: wordPlanProblem(say, problem) })}</li>;
  }
  return (
    <li>
      <More
        className="plan-more"
        label={say("thinning.step", {
          mean,
          cues: Math.round(expectedCues(plan)),
        })}
      >
        <table
          className="plan-sessions"
          aria-label={say("thinning.step", { mean, cues: Math.round(expectedCues(plan)) })}
        >
          <thead>
            <tr>
              <th scope="col">{say("seed.seed")}</th>
              <th scope="col">{say("plan.cues")}</th>
              <th scope="col">{say("print.link.key")}</th>
              {onTry === null ? null : <th scope="col">{say("seed.title")}</th>}
            </tr>
          </thead>
          <tbody>
            {sessions.map((session) => (
              <Session key={session.number} session={session} keyOf={keyOf} onTry={onTry} />
            ))}
          </tbody>
        </table>
      </More>
      {plan.fewestCues === asked ? null : (
        <p className="plan-caution">{say("thinning.lowered", { now: plan.fewestCues, asked })}</p>
      )}
    </li>
  );
}

interface SessionProps extends Pick<ThinningStepProps, "keyOf" | "onTry"> {
  readonly session: FadedSession;
}

function Session({ session: { number, seed, plan }, keyOf, onTry }: SessionProps) {
  const say = useSay();
  const cues = useMemo(() => sessionSchedule(plan, seed).cues.length, [plan, seed]);
  const key = new URLSearchParams({ seed, mean: String(plan.meanSeconds) });
  return (
    <tr>
      <th scope="row">{seed}</th>
      <td>{cues}</td>
      <td>
        {keyOf === null ? null : (
          <Link
            to={`/print/cue-key/${keyOf}?${key}`}
            aria-label={say("thinning.keyOf", { number })}
          >
            {say("thinning.key")}
          </Link>
        )}
      </td>
      {onTry === null ? null : (
        <td>
          <Button
            look="quiet"
            aria-label={say("thinning.tryOf", { number })}
            onPress={() => onTry(seed)}
          >
            {say("thinning.try")}
          </Button>
        </td>
      )}
    </tr>
  );
}
