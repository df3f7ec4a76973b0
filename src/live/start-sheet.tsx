import { useState } from "react";
import type { Plan } from "../../shared/api/plans.ts";
import { useUnasked, useWilling } from "../class/home/use-agreed.ts";
import { Button } from "../parts/button.tsx";
import { Dialog } from "../parts/dialog.tsx";
import { Problem } from "../parts/problem.tsx";
import { useSay } from "../text/text.tsx";
import { comingOwn, keepTouched } from "./own-cues/coming-own.ts";
import { OwnStart } from "./own-cues/own-start.tsx";
import { Roll } from "./roll.tsx";
import { SoundCheck, useSoundCheck } from "./sound-check.tsx";
import { type Turn, TurnLine } from "./turn.tsx";

interface StartSheetProps {
  plan: Plan;
  /** Whether it is asked who is here. */
  asksRoll: boolean;
  /** Whether the chime is to be heard first. */
  asksSound: boolean;
  /** Under own cues, the seed of the session; null where the class is cued together. */
  ownSeed: string | null;
  /** Which of two conditions that take turns this session has; null where none do. */
  turn: Turn | null;
  onStart: (said: StartSaid) => void;
  /** The class practises first; offered with the sound, before the first session of all. */
  onPractise: (said: StartSaid) => void;
  onCancel: () => void;
}

/** What was said before a start. */
export interface StartSaid {
  readonly absentIds: readonly string[];
  /** Under own cues: whose desk an adult touches. */
  readonly byTouchIds: readonly string[];
  /** Null when the sound was not asked about. */
  readonly sound: { readonly wasHeard: boolean; readonly volume: number } | null;
}

/** The one sheet before a session: who is here today, and the first time how the chime sounds. */
export function StartSheet(props: StartSheetProps) {
  const { plan, asksRoll, asksSound, ownSeed, turn, onStart, onPractise, onCancel } = props;
  const say = useSay();
  const { students, error } = useWilling(plan.groupId, "cued");
  const unasked = useUnasked(plan.groupId);
  const [absent, setAbsent] = useState<ReadonlySet<string>>(new Set());
  const [byTouch, setByTouch] = useState<ReadonlySet<string>>(
    () => new Set(ownSeed === null ? [] : comingOwn(plan.id).byTouchIds),
  );
  const check = useSoundCheck(plan.settings.chime, plan.settings.volume);
  const isHeardFirst = asksSound && !check.isTried;
  const said = (): StartSaid => ({
    absentIds: [...absent],
    // Of those who are still in the group: a name that was kept in this window may have left it.
    byTouchIds: (students ?? []).flatMap(({ id }) =>
      byTouch.has(id) && !absent.has(id) ? id : [],
    ),
    sound: asksSound ? { wasHeard: check.wasHeard, volume: check.volume } : null,
  });
  // A first time that is heard everywhere goes on with a practice; the session itself can wait.
  const offersPractice = asksSound && asksRoll;
  const practisesFirst = offersPractice && check.wasHeard;
  const isEmpty = students !== undefined && absent.size >= students.length;
  return (
    <Dialog
      title={say(asksSound ? "soundCheck.title" : "roll.title")}
      isOpen
      onClose={onCancel}
      actions={
        <>
          <Button onPress={onCancel}>{say("act.cancel")}</Button>
          {asksSound ? (
            <Button
              look={isHeardFirst ? "main" : "plain"}
              isDisabled={check.isSilent}
              onPress={check.hear}
            >
              {say("soundCheck.hear")}
            </Button>
          ) : null}
          {offersPractice ? (
            <Button
              look={practisesFirst ? "main" : "plain"}
              isDisabled={check.isSilent}
              onPress={() => onPractise(said())}
            >
              {say("soundCheck.practise")}
            </Button>
          ) : null}
          <Button
            look={isHeardFirst || practisesFirst ? "plain" : "main"}
            isDisabled={(asksSound && check.isSilent) || (asksRoll && isEmpty)}
            autoFocus={!asksSound}
            onPress={() => onStart(said())}
          >
            {say("soundCheck.start")}
          </Button>
        </>
      }
    >
      {turn === null ? null : <TurnLine turn={turn} />}
      {asksSound ? <SoundCheck check={check} /> : null}
      {asksRoll && asksSound ? <h3>{say("roll.title")}</h3> : null}
      {asksRoll && students !== undefined ? (
        <Roll students={students} absent={absent} onChange={setAbsent} />
      ) : null}
      {ownSeed !== null && students !== undefined ? (
        <OwnStart
          groupId={plan.groupId}
          planId={plan.id}
          seed={ownSeed}
          students={students.filter(({ id }) => !absent.has(id))}
          byTouch={byTouch}
          onChange={(next) => {
            setByTouch(next);
            keepTouched(plan.id, [...next]);
          }}
        />
      ) : null}
      {asksRoll && isEmpty ? <p role="alert">{say("roll.nobody")}</p> : null}
      {asksRoll && unasked > 0 ? (
        <p className="roll-reminder">{say("agreed.reminder", { count: unasked })}</p>
      ) : null}
      <Problem error={error} />
    </Dialog>
  );
}
