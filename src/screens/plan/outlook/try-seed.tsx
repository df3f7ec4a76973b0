import { useMemo } from "react";
import type { Plan } from "../../../../shared/api/plans.ts";
import type { PlanSettings } from "../../../../shared/plan/plan.ts";
import { sessionSchedule } from "../../../../shared/schedule/session-schedule.ts";
import { Button } from "../../../parts/button.tsx";
import { TextField } from "../../../parts/field.tsx";
import { freshSeed } from "../../../parts/fresh-seed.ts";
import { useFormats, useSay } from "../../../text/text.tsx";
import { StartWithSeed } from "./start-with-seed.tsx";

interface TrySeedProps {
  /** The plan as it is kept; sessions are held under this one. */
  plan: Plan;
  /** The plan as it stands in the form. */
  settings: PlanSettings;
  isSaved: boolean;
  /** The seed as it is typed. */
  typed: string;
  onType: (seed: string) => void;
}

/** What a session under this plan could be: the cues that one seed gives, and a session with just these. */
export function TrySeed({ plan, settings, isSaved, typed, onType }: TrySeedProps) {
  const say = useSay();
  const formats = useFormats();
  const seed = typed.trim();
  const cues = useMemo(
    () => (seed === "" ? [] : sessionSchedule(settings, seed).cues),
    [settings, seed],
  );
  return (
    <section className="plan-seed" aria-labelledby="seed-title">
      <h3 id="seed-title">{say("seed.title")}</h3>
      <p>{say("seed.help")}</p>
      <div className="plan-seed-row">
        <TextField
          label={say("seed.seed")}
          value={typed}
          onChange={onType}
          maxLength={80}
          problem={seed === "" ? say("refused.seed-bad") : undefined}
        />
        <Button onPress={() => onType(freshSeed())}>{say("seed.another")}</Button>
      </div>
      {/* Only the count is read out: the times, spoken in the room, would give the cues away. */}
      <p aria-live="polite" className="only-for-readers">
        {seed === "" ? "" : say("seed.count", { count: cues.length })}
      </p>
      <p className="plan-times">
        {seed === ""
          ? ""
          : say("seed.cues", { count: cues.length, times: cues.map(formats.clock).join("  ") })}
      </p>
      <StartWithSeed plan={plan} seed={seed} isSaved={isSaved} />
    </section>
  );
}
