import { useEffect, useMemo, useState } from "react";
import { groupStanding } from "../../../shared/reading/check-standing.ts";
import { lateAfterMs } from "../../../shared/session/decide.ts";
import type { SeenValue } from "../../../shared/session/event.ts";
import { useLoggedCounts } from "../../api/logged-counts.ts";
import { useTell } from "../../api/queries.ts";
import type { LiveSession } from "../../live/use-live-session.ts";
import { useSecondsSinceCue } from "../../live/use-seconds-since-cue.ts";
import { announce } from "../../parts/announcer.tsx";
import { useSay } from "../../text/text.tsx";
import { drawChecks, drawOwnChecks } from "./check-draw.ts";
import { type CurrentCheck, currentCheck, currentOwnCheck } from "./current-check.ts";
import { type Noted, useNoted } from "./use-noted.ts";

/** What is seen of somebody chosen freely is of the last cue for so long, in seconds. */
const freeSeconds = lateAfterMs / 1000;

/** The check that waits in a running session, who is asked about, and what was just said. */
export function useSpotCheck(live: LiveSession, isPrivate: boolean) {
  const say = useSay();
  const { session, students, state } = live;
  const [skipped, setSkipped] = useState<string | null>(null);
  const [revealed, setRevealed] = useState<string | null>(null);
  const [reopened, setReopened] = useState<ReadonlySet<string>>(new Set());
  const noted = useNoted();
  const since = useSecondsSinceCue(live);
  const counts = useLoggedCounts(session.groupId).data?.logged;
  const tell = useTell((api, said: Noted) =>
    api.sessions.spotCheck({ sessionId: session.id, ...said }),
  );
  const { cues } = state;
  const isOwn = session.plan.cueing === "own";
  const draw = useMemo(() => {
    const ids = students.map(({ id }) => id);
    return counts === undefined || isOwn ? [] : drawChecks(session, ids, cues, counts);
  }, [session, students, cues, counts, isOwn]);
  const ownDraw = useMemo(() => {
    const ids = students.map(({ id }) => id);
    return counts === undefined || !isOwn ? [] : drawOwnChecks(session, ids, counts);
  }, [session, students, counts, isOwn]);
  const standing = useMemo(() => (counts === undefined ? null : groupStanding(counts)), [counts]);

  const check = isOwn
    ? currentOwnCheck(ownDraw, state, reopened)
    : currentCheck(draw, state, reopened);
  const name = check === null ? null : nameOf(check);
  const isDue = check !== null && check.waiting.size > 0 && name !== skipped;
  const isShown = check !== null && (isPrivate || revealed === name);
  // Places stay as they were drawn: who is answered leaves a gap, and nobody moves up under the hand.
  const places = students.filter(({ id }) => check?.studentIds.includes(id));
  const due = isDue ? name : null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: said once for each check
  useEffect(() => {
    if (due !== null) announce(say(isPrivate ? "spot.due" : "spot.dueShared"));
  }, [due, isPrivate]);

  const reopen = (key: string, isOpen: boolean) =>
    setReopened((now) => {
      const next = new Set(now);
      if (isOpen) next.add(key);
      else next.delete(key);
      return next;
    });
  return {
    check,
    /** Tells this check from every other one. */
    name,
    places,
    isDue,
    isShown,
    noted,
    standing,
    error: tell.error,
    /** Whether somebody chosen freely is compared with the mark for the last cue. */
    isCompared: since !== null && since < freeSeconds,
    reveal: () => setRevealed(name),
    skip: () => setSkipped(name),
    say(studentId: string, cue: number | null, value: SeenValue) {
      const said = { studentId, cue, value };
      noted.add(said);
      tell.mutate(said, {
        onError: () => noted.forget(said),
        onSuccess: () => {
          reopen(`${studentId}/${cue}`, false);
          announce(say("spot.notedShared"));
        },
      });
    },
    /** The log keeps what was said; that nothing was seen takes its place, and the check asks again. */
    undo({ studentId, cue }: Noted) {
      const nothing = { studentId, cue, value: "unseen" } as const;
      tell.mutate(nothing, {
        onSuccess: () => {
          noted.forget(nothing);
          if (cue !== null) reopen(`${studentId}/${cue}`, true);
          announce(say("spot.takenBack"));
        },
      });
    },
  };
}

/** With own cues the number alone is many students'. */
const nameOf = ({ cue, studentIds }: CurrentCheck): string => `${cue} ${studentIds.join(" ")}`;
