import { useState } from "react";
import { Link } from "react-router";
import type { Plan } from "../../../shared/api/plans.ts";
import { useOpenSession, useSettings, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { SoundCheck } from "../session/sound-check.tsx";
import { useStartSession } from "../session/start-session.ts";

/** Holds a session whose cues are those of a given seed. */
export function StartWithSeed(props: { plan: Plan; seed: string; isSaved: boolean }) {
  const { plan, seed, isSaved } = props;
  const say = useSay();
  const settings = useSettings();
  const open = useOpenSession();
  const [checking, setChecking] = useState(false);
  const saveChecked = useTell((api) => api.app.saveSettings({ soundChecked: true }));
  const session = useStartSession();
  const begin = () => session.start({ plan, kind: "seatwork", seed });
  const press = () => {
    if (plan.settings.cueing === "sound" && settings?.soundChecked === false) setChecking(true);
    else begin();
  };
  return (
    <>
      <div className="plan-seed-row">
        <Button
          isDisabled={seed === "" || !isSaved || open !== null || session.isPending}
          onPress={press}
        >
          {say("seed.start")}
        </Button>
      </div>
      {open === null ? null : (
        <p className="plan-caution">
          {say("seed.otherRuns")} <Link to={`/session/${open.id}`}>{say("today.goToSession")}</Link>
        </p>
      )}
      {isSaved ? null : <p className="plan-caution">{say("seed.saveFirst")}</p>}
      <Problem error={session.error} />
      <SoundCheck
        isOpen={checking}
        chime={plan.settings.chime}
        volume={plan.settings.volume}
        onCancel={() => setChecking(false)}
        onDone={() => {
          setChecking(false);
          saveChecked.mutate(undefined);
          begin();
        }}
      />
    </>
  );
}
