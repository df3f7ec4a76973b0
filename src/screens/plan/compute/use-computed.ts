import { useEffect, useMemo, useState } from "react";
import type { PlanSettings } from "../../../../shared/plan/plan.ts";
import { type Guess, guess } from "../../../../shared/schedule/guess.ts";
import type { ChangeTold, PrecisionSettings } from "../../../../shared/schedule/precision.ts";
import type { Reckoned, Reckoning } from "./compute.ts";
import { reckonAside } from "./compute-line.ts";

/** The answer, or null while it is being reckoned. */
function useReckoned(reckoning: Reckoning | null): Reckoned | null {
  const [held, setHeld] = useState<{ reckoning: Reckoning; reckoned: Reckoned } | null>(null);
  useEffect(() => {
    if (reckoning === null) return;
    let isWanted = true;
    reckonAside(reckoning).then(
      (reckoned) => {
        if (isWanted) setHeld({ reckoning, reckoned });
      },
      (problem: unknown) => console.error("The page could not reckon this plan.", problem),
    );
    return () => {
      isWanted = false;
    };
  }, [reckoning]);
  return held !== null && held.reckoning === reckoning ? held.reckoned : null;
}

/** What a listener could guess; until `isFinal`, without what the fewest-cues floor adds. */
export interface PlanGuess {
  readonly found: Guess;
  readonly isFinal: boolean;
}

/**
 * At once what the law alone gives away, which has a closed form; the floor's part follows from the
 * worker. Null without a plan that can be run.
 */
export function useGuess(plan: PlanSettings | null): PlanGuess | null {
  const quick = useMemo(() => (plan === null ? null : guess({ ...plan, fewestCues: 0 })), [plan]);
  const reckoning = useMemo(
    (): Reckoning | null =>
      plan === null || plan.fewestCues === 0 ? null : { kind: "guess", plan },
    [plan],
  );
  const reckoned = useReckoned(reckoning);
  if (quick === null) return null;
  if (reckoned?.kind === "guess") return { found: reckoned.guess, isFinal: true };
  return { found: quick, isFinal: reckoning === null };
}

/** The planner's curve; empty while it is being reckoned. */
export function useChangesTold(
  settings: PrecisionSettings,
  mostSessions: number,
): readonly ChangeTold[] {
  const reckoning = useMemo(
    (): Reckoning => ({ kind: "changes", settings, mostSessions }),
    [settings, mostSessions],
  );
  const reckoned = useReckoned(reckoning);
  return reckoned?.kind === "changes" ? reckoned.changes : [];
}
