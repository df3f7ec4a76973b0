import { type ReactNode, useState } from "react";
import { useNavigate } from "react-router";
import type { Plan } from "../../shared/api/plans.ts";
import type { SessionKind } from "../../shared/session/event.ts";
import { planForKind } from "../../shared/session/kind-plan.ts";
import type { Api } from "../api/api.ts";
import { useSettings, useTell } from "../api/queries.ts";
import { comingOwn, forgetOwn } from "./own-cues/coming-own.ts";
import type { Around } from "./start-session.ts";
import { type StartSaid, StartSheet } from "./start-sheet.tsx";
import { useNextTurn } from "./turn.tsx";

/** Kept once the session has started: a start that failed has the check offered again. */
const saveChecked = (api: Api) => api.app.saveSettings({ soundChecked: true });

/**
 * A start that comes after what has to be asked: who is here today, and the chime where cues sound and
 * none was heard through this computer's loudspeaker yet. One sheet asks both; a practice, of which
 * nothing is counted, asks for no roll.
 *
 * @param begin starts the session; called within a press, so that the page may sound
 * @param seed of printed keys that the session is to follow; a fresh one when left out
 * @param kind what is started: a practice sounds even where the plan cues the teacher alone
 */
export function useCheckedStart(
  plan: Plan | undefined,
  begin: (around?: Around) => void,
  kind: SessionKind = "seatwork",
  seed?: string,
): { press: () => void; check: ReactNode } {
  const settings = useSettings();
  const navigate = useNavigate();
  const [isOpen, setOpen] = useState(false);
  const turn = useNextTurn(plan?.groupId ?? null);
  const isHeard = plan !== undefined && planForKind(plan.settings, kind).cueing === "sound";
  const asksSound = isHeard && settings?.soundChecked === false;
  const asksRoll = kind === "seatwork";
  const isOwn = asksRoll && plan?.settings.cueing === "own";
  const keySeed = isOwn && isOpen ? (seed ?? comingOwn(plan.id).seed) : null;

  const press = () => {
    if (asksSound || asksRoll) setOpen(true);
    else begin();
  };
  const done = ({ absentIds, byTouchIds, sound }: StartSaid) => {
    setOpen(false);
    if (plan !== undefined && keySeed !== null) {
      const after = async () => forgetOwn(plan.id);
      begin({ absentIds, own: { byTouchIds, seed: keySeed }, after });
      return;
    }
    const after = sound?.wasHeard === true ? saveChecked : undefined;
    if (plan === undefined || sound === null || sound.volume === plan.settings.volume) {
      begin({ absentIds, after });
      return;
    }
    const { id, name } = plan;
    const changed = { ...plan.settings, volume: sound.volume };
    begin({
      absentIds,
      first: (api) => api.plans.update({ id, name, settings: changed }),
      after,
    });
  };
  const keep = useTell(async (api, { sound }: StartSaid) => {
    if (plan === undefined || sound === null) return;
    const { id, name, settings: planned } = plan;
    if (sound.volume !== planned.volume) {
      await api.plans.update({ id, name, settings: { ...planned, volume: sound.volume } });
    }
    if (sound.wasHeard) await saveChecked(api);
  });
  const practise = (said: StartSaid) => {
    setOpen(false);
    keep.mutate(said, {
      onSettled: () => navigate(`/groups/${plan?.groupId ?? ""}/practice`),
    });
  };
  const check =
    plan === undefined || !isOpen ? null : (
      <StartSheet
        plan={plan}
        asksRoll={asksRoll}
        asksSound={asksSound}
        ownSeed={keySeed}
        turn={kind === "seatwork" ? turn : null}
        onStart={done}
        onPractise={practise}
        onCancel={() => setOpen(false)}
      />
    );
  return { press, check };
}
