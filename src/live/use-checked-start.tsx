import { type ReactNode, useState } from "react";
import type { Plan } from "../../shared/api/plans.ts";
import type { SessionKind } from "../../shared/session/event.ts";
import { planForKind } from "../../shared/session/kind-plan.ts";
import type { Api } from "../api/api.ts";
import { useSettings } from "../api/queries.ts";
import { SoundCheck } from "./sound-check.tsx";
import type { Around } from "./start-session.ts";

/** Kept once the session has started: a start that failed has the check offered again. */
const saveChecked = (api: Api) => api.app.saveSettings({ soundChecked: true });

/**
 * A start that comes after the first sound check: with cues that sound, and none heard through this
 * computer's loudspeaker yet, the press opens the check, else it starts at once.
 *
 * @param begin starts the session; called within a press, so that the page may sound
 * @param kind what is started: a practice sounds even where the plan cues the teacher alone
 */
export function useCheckedStart(
  plan: Plan | undefined,
  begin: (around?: Around) => void,
  kind: SessionKind = "seatwork",
): { press: () => void; check: ReactNode } {
  const settings = useSettings();
  const [isOpen, setOpen] = useState(false);

  const press = () => {
    const isHeard = plan !== undefined && planForKind(plan.settings, kind).cueing === "sound";
    if (isHeard && settings?.soundChecked === false) setOpen(true);
    else begin();
  };
  const done = (checked: { wasHeard: boolean; volume: number }) => {
    setOpen(false);
    const after = checked.wasHeard ? saveChecked : undefined;
    if (plan === undefined || checked.volume === plan.settings.volume) {
      begin({ after });
      return;
    }
    const { id, name } = plan;
    const changed = { ...plan.settings, volume: checked.volume };
    begin({ first: (api) => api.plans.update({ id, name, settings: changed }), after });
  };
  const check =
    plan === undefined ? null : (
      <SoundCheck
        key={String(isOpen)}
        isOpen={isOpen}
        chime={plan.settings.chime}
        plannedVolume={plan.settings.volume}
        onCancel={() => setOpen(false)}
        onDone={done}
      />
    );
  return { press, check };
}
