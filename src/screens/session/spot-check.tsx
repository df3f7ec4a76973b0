import { useMemo, useState } from "react";
import type { CheckStanding } from "../../../shared/agreement/check-step.ts";
import type { CheckPace } from "../../../shared/plan/plan.ts";
import { groupStanding } from "../../../shared/reading/check-standing.ts";
import { lateAfterMs } from "../../../shared/session/decide.ts";
import type { SeenValue } from "../../../shared/session/event.ts";
import { useAsk, useTell } from "../../api/queries.ts";
import type { LiveSession } from "../../live/use-live-session.ts";
import { useSecondsSinceCue } from "../../live/use-seconds-since-cue.ts";
import { Button } from "../../parts/button.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { wordStanding } from "../../words/word-standing.ts";
import { drawChecks } from "./check-draw.ts";
import { CheckRow } from "./check-row.tsx";
import { FreeCheck } from "./free-check.tsx";
import { keysByPlace, useCheckKeys } from "./use-check-keys.ts";

/** A question about a moment is of no use once that moment is out of mind, in seconds. */
const openSeconds = lateAfterMs / 1000;

interface Check {
  studentId: string;
  cue: number | null;
  value: SeenValue;
}

/**
 * Asks the teacher quietly, at drawn cues, what one to four students were doing. Only here on the strip,
 * never on the board; skipping it costs nothing.
 *
 * @param isPrivate whether names may stand here unasked; where students look at this window too, they
 *   come only after a press, and go with the answer
 */
export function SpotCheck({ live, isPrivate }: { live: LiveSession; isPrivate: boolean }) {
  const say = useSay();
  const { session, students, state } = live;
  const [skippedCue, setSkippedCue] = useState<number | null>(null);
  const [revealedCue, setRevealedCue] = useState<number | null>(null);
  const since = useSecondsSinceCue(live);
  const counts = useAsk("sessions", ["checks", session.groupId], (api) =>
    api.analysis.counts({ groupId: session.groupId }),
  );
  const check = useTell((api, input: Check) =>
    api.sessions.spotCheck({ sessionId: session.id, ...input }),
  );
  const { cues, openCue: cue } = state;
  const draw = useMemo(() => {
    const ids = students.map(({ id }) => id);
    return counts.data === undefined ? [] : drawChecks(session, ids, cues, counts.data);
  }, [session, students, cues, counts.data]);

  const standing = useMemo(
    () => (counts.data === undefined ? null : groupStanding(counts.data)),
    [counts.data],
  );

  const isFresh = since !== null && since < openSeconds;
  const drawn = draw.find(({ cueIndex }) => cueIndex + 1 === cue)?.studentIds ?? [];
  // Places stay as they were drawn: who is answered leaves a gap, and nobody moves up under the hand.
  const places = students.filter(({ id }) => drawn.includes(id));
  const waiting = places.filter(
    ({ id }) =>
      !state.setAside.has(id) &&
      !state.spotChecks.some((done) => done.cue === cue && done.studentId === id),
  );
  const isDue = waiting.length > 0 && isFresh && cue !== skippedCue && state.status === "running";
  const isShown = isDue && (isPrivate || revealedCue === cue);
  const asked = new Set(isShown ? waiting.map(({ id }) => id) : []);
  const answer = (studentId: string, value: SeenValue) => check.mutate({ studentId, cue, value });
  const skip = () => setSkippedCue(cue);

  useCheckKeys({
    places: places.map(({ id }) => id),
    asked,
    onSay: answer,
    onSkip: isDue ? skip : null,
  });

  return (
    <div className="spot" role="group" aria-label={say("spot.label")}>
      {isDue && !isShown ? (
        <Button className="spot-look" onPress={() => setRevealedCue(cue)}>
          {say("spot.look")}
        </Button>
      ) : null}
      {isShown
        ? places.map(({ id, name }, place) => (
            <div key={id} className={asked.has(id) ? "spot-place" : "spot-place is-answered"}>
              <CheckRow
                name={name}
                keys={keysByPlace[place]}
                onSay={(value) => answer(id, value)}
              />
            </div>
          ))
        : null}
      {isDue ? (
        <Button look="quiet" onPress={skip}>
          {say("spot.skip")} <kbd>Esc</kbd>
        </Button>
      ) : null}
      <FreeCheck
        students={students.filter(({ id }) => !state.setAside.has(id))}
        isPrivate={isPrivate}
        isCompared={isFresh}
        // What is seen soon after a cue is compared with the mark for it; later it stands for itself.
        onSay={(studentId, value) => check.mutate({ studentId, cue: isFresh ? cue : null, value })}
      />
      {isPrivate && session.kind !== "practice" && standing !== null ? (
        <Standing pace={session.plan.checkPace} standing={standing} />
      ) : null}
      <Problem error={check.error} />
    </div>
  );
}

/** For the teacher alone: students who know how seldom checks come need not fear one. */
function Standing(props: { standing: CheckStanding; pace: CheckPace }) {
  const voice = { say: useSay(), formats: useFormats() };
  return <p className="spot-note">{wordStanding(voice, props.standing, props.pace)}</p>;
}
