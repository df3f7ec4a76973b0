import { useEffect, useRef } from "react";
import type { CheckStanding } from "../../../shared/agreement/check-step.ts";
import type { CheckPace, PlanSettings } from "../../../shared/plan/plan.ts";
import type { LiveSession } from "../../live/use-live-session.ts";
import { LiveProblem } from "../../parts/live-problem/live-problem.tsx";
import { SteadyButton } from "../../parts/steady/steady-button.tsx";
import { useSteady } from "../../parts/steady/use-steady.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { wordStanding } from "../../words/word-standing.ts";
import { CheckRow } from "./check-row.tsx";
import { FreeCheck } from "./free-check.tsx";
import { keysByPlace, useCheckKeys } from "./use-check-keys.ts";
import { useSpotCheck } from "./use-spot-check.ts";
import "./spot-check.css";

/**
 * Asks the teacher quietly, at drawn cues, what one to four students were doing. Only here on the strip,
 * never on the board; skipping it costs nothing. Its place is kept while nothing is asked, so that a check
 * moves nothing that anybody may be pressing.
 *
 * @param isPrivate whether names may stand here unasked; where students look at this window too, they
 *   come only after a press, and go with the answer
 */
export function SpotCheck({ live, isPrivate }: { live: LiveSession; isPrivate: boolean }) {
  const say = useSay();
  const { session, students, state } = live;
  const spot = useRef<HTMLDivElement>(null);
  const checking = useSpotCheck(live, isPrivate);
  const { check, places, isDue, isShown, noted, standing } = checking;
  const asked = new Set(isDue && isShown ? check?.waiting : []);
  const cue = check?.cue ?? null;
  const about = `${checking.name} ${check?.isLate} ${isShown}`;
  const wasLooking = useRef(false);
  useEffect(() => {
    if (!isShown || !wasLooking.current) return;
    wasLooking.current = false;
    spot.current?.querySelector<HTMLElement>(".spot-row button:enabled")?.focus();
  }, [isShown]);

  useCheckKeys({
    places: places.map(({ id }) => id),
    asked,
    isMeant: useSteadyKeys(about),
    onSay: (studentId, value) => checking.say(studentId, cue, value),
    onSkip: isDue ? checking.skip : null,
  });

  const free = noted.newestFree;
  return (
    <div ref={spot} className="spot" role="group" aria-label={say("spot.label")} tabIndex={-1}>
      <div className="spot-line">
        {isPrivate ? null : (
          <SteadyButton
            className={isDue && !isShown ? "" : "is-gone"}
            isDisabled={!isDue || isShown}
            shown={about}
            onPress={() => {
              wasLooking.current = true;
              checking.reveal();
            }}
          >
            {say("spot.look")}
          </SteadyButton>
        )}
        <SteadyButton
          look="quiet"
          className={isDue ? "" : "is-gone"}
          isDisabled={!isDue}
          shown={about}
          onPress={checking.skip}
        >
          {say("spot.skip")} <kbd>Esc</kbd>
        </SteadyButton>
        <FreeCheck
          students={students.filter(({ id }) => !state.setAside.has(id))}
          isPrivate={isPrivate}
          isCompared={checking.isCompared}
          // What is seen soon after a cue is compared with the mark for it; later it stands for itself.
          onSay={(studentId, value) =>
            checking.say(studentId, checking.isCompared ? state.openCue : null, value)
          }
        />
        <span className="spot-said">
          {free === undefined ? null : (
            <>
              {say("spot.notedShared")}
              <SteadyButton look="quiet" shown={free.studentId} onPress={() => checking.undo(free)}>
                {say("act.undo")}
              </SteadyButton>
            </>
          )}
        </span>
        {isPrivate && session.kind !== "practice" && standing !== null ? (
          <Standing pace={session.plan.checkPace} standing={standing} />
        ) : null}
      </div>
      {Array.from({ length: placesOf(session.plan) }, (_, place) => {
        const student = places[place];
        const said = student === undefined ? undefined : noted.of(student.id, cue);
        const isThere =
          student !== undefined && isShown && (asked.has(student.id) || said !== undefined);
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: a place is its number, whoever has it
          <div key={place} className="spot-place">
            {student !== undefined && isThere ? (
              <CheckRow
                name={student.name}
                about={`${cue} ${student.id}`}
                lateCue={check?.isLate ? cue : null}
                keys={keysByPlace[place]}
                noted={asked.has(student.id) ? null : (said?.value ?? null)}
                isPrivate={isPrivate}
                onSay={(value) => checking.say(student.id, cue, value)}
                onUndo={() => (said === undefined ? undefined : checking.undo(said))}
              />
            ) : null}
          </div>
        );
      })}
      <LiveProblem error={checking.error} />
    </div>
  );
}

/** Whether a key is meant for what is shown: it has stood there a moment. */
function useSteadyKeys(about: string): () => boolean {
  const steady = useSteady(about);
  return () => {
    steady.begin();
    return steady.isMeant();
  };
}

/** For the teacher alone: students who know how seldom checks come need not fear one. */
function Standing(props: { standing: CheckStanding; pace: CheckPace }) {
  const voice = { say: useSay(), formats: useFormats() };
  return <p className="spot-note">{wordStanding(voice, props.standing, props.pace)}</p>;
}

/** At a student's own cue only that student is asked about. */
const placesOf = ({ cueing, studentsPerCheck }: PlanSettings): number =>
  cueing === "own" ? 1 : studentsPerCheck;
