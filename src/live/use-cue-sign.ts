import { useEffect, useLayoutEffect, useRef, useState } from "react";
import type { SessionStatus } from "../../shared/session/state.ts";
import type { LiveSession } from "./use-live-session.ts";
import { useNewestCue, useShowsCues } from "./use-newest-cue.ts";
import { useSecondsSinceCue } from "./use-seconds-since-cue.ts";

/** How long the sign of a cue stays when no other comes, in seconds as people feel them. */
const signSeconds = 15;
/** The words are taken away for so long before they stand again, so that they are read out again, in ms. */
const wordless = 150;

/** What a sign shows now; the same on tiles, board and strip. */
export interface CueSignState {
  readonly status: SessionStatus;
  /** The cue whose sign stands or stood last; null before the first seen here. */
  readonly cue: number | null;
  /** Whether its sign stands now. */
  readonly isAsking: boolean;
  /** Turns from one sign to the next, so that no sign looks like the one before it. */
  readonly isSecond: boolean;
  /** It took the place of another cue's sign. */
  readonly isAgain: boolean;
  /** The moment between two cues in which the words are away. */
  readonly isWordless: boolean;
}

/**
 * The sign of the newest cue: it stands for 15 seconds or until the next cue, which has a sign of its own.
 * A page that is opened later joins in where the sign then is; a pause or the end takes it down.
 *
 * @param counts whether those who are to notice the cue look at this sign, so that it makes a cue shown
 */
export function useCueSign(live: LiveSession, { counts }: { counts: boolean }): CueSignState {
  const { session, state } = live;
  const { status } = state;
  const newest = useNewestCue(live);
  const isLogged = newest !== null && newest === state.openCue;
  const since = useSecondsSinceCue(live);
  // One that is only put in sight here is of this moment; the age of a logged one may not be known yet.
  const age = isLogged ? since : 0;
  const [sign, setSign] = useState({
    cue: 0,
    isSecond: true,
    stands: false,
    isAgain: false,
    isWordless: false,
  });
  const seen = useRef(0);

  useLayoutEffect(() => {
    if (status !== "running") {
      setSign((now) => ({ ...now, stands: false, isWordless: false }));
      return;
    }
    if ((newest ?? 0) < seen.current) {
      // A cue that was to be put in sight here was not painted in time, so it does not count as shown.
      seen.current = newest ?? 0;
      setSign((now) => ({ ...now, stands: false, isWordless: false }));
      return;
    }
    if (newest === null || age === null || newest === seen.current) return;
    seen.current = newest;
    if (age >= signSeconds) return;
    setSign(({ stands, isSecond }) => ({
      cue: newest,
      isSecond: !isSecond,
      stands: true,
      isAgain: stands,
      isWordless: stands,
    }));
  }, [status, newest, age]);

  useEffect(() => {
    if (!sign.isWordless) return;
    const timer = setTimeout(() => setSign((now) => ({ ...now, isWordless: false })), wordless);
    return () => clearTimeout(timer);
  }, [sign.isWordless]);

  // The sign's age is read once, when a cue brings it: as a dependency it would begin the wait anew each second.
  // biome-ignore lint/correctness/useExhaustiveDependencies: each cue's sign has its own time, also where one takes the place of another
  useEffect(() => {
    if (!sign.stands) return;
    const left = (signSeconds - (age ?? 0)) * 1_000;
    const timer = setTimeout(() => setSign((now) => ({ ...now, stands: false })), left);
    return () => clearTimeout(timer);
  }, [sign.cue, sign.stands]);

  const isStanding = sign.stands && status === "running";
  // The rings change at once; the words may be a moment behind.
  useShowsCues(session.id, isStanding ? sign.cue : null, counts);
  return {
    status,
    cue: sign.cue === 0 ? null : sign.cue,
    isAsking: isStanding,
    isSecond: sign.isSecond,
    isAgain: sign.isAgain,
    isWordless: sign.isWordless,
  };
}
