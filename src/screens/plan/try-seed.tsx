import { useMemo, useState } from "react";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { useFormats, useSay } from "../../text/text.tsx";

/** Eight letters that are easy to read aloud; a session's seed only has to differ from the last one. */
function freshSeed(): string {
  const letters = "abcdefghjkmnpqrstuvwxyz";
  const picks = crypto.getRandomValues(new Uint8Array(8));
  return [...picks].map((pick) => letters[pick % letters.length]).join("");
}

/** What a session under this plan could be: the cues that one seed gives. */
export function TrySeed({ settings }: { settings: PlanSettings }) {
  const say = useSay();
  const formats = useFormats();
  const [seed, setSeed] = useState("example");
  const cues = useMemo(
    () => (seed.trim() === "" ? [] : sessionSchedule(settings, seed.trim()).cues),
    [settings, seed],
  );
  return (
    <section className="plan-seed">
      <h3>{say("seed.title")}</h3>
      <p>{say("seed.help")}</p>
      <div className="plan-seed-row">
        <TextField label={say("seed.seed")} value={seed} onChange={setSeed} maxLength={80} />
        <Button onPress={() => setSeed(freshSeed())}>{say("seed.another")}</Button>
      </div>
      <p aria-live="polite">
        {say("seed.cues", { count: cues.length, times: cues.map(formats.clock).join("  ") })}
      </p>
    </section>
  );
}
