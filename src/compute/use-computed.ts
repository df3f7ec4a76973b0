import { useEffect, useMemo, useState } from "react";
import type { PlanSettings } from "../../shared/plan/plan.ts";
import type { PriceInputs, Prices } from "../../shared/points/planner.ts";
import { type Guess, guess } from "../../shared/schedule/guess.ts";
import type { ChangeTold, PrecisionSettings } from "../../shared/schedule/precision.ts";
import type { Computation, ComputedAside } from "./compute.ts";
import { computeAside } from "./compute-line.ts";

/** The answer, or null while it is being computed. */
function useComputed(computation: Computation | null): ComputedAside | null {
  const [held, setHeld] = useState<{ computation: Computation; computed: ComputedAside } | null>(
    null,
  );
  useEffect(() => {
    if (computation === null) return;
    let isWanted = true;
    computeAside(computation).then(
      (computed) => {
        if (isWanted) setHeld({ computation, computed });
      },
      (problem: unknown) => console.error("The page could not compute this plan.", problem),
    );
    return () => {
      isWanted = false;
    };
  }, [computation]);
  return held !== null && held.computation === computation ? held.computed : null;
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
  const computation = useMemo(
    (): Computation | null =>
      plan === null || plan.fewestCues === 0 ? null : { kind: "guess", plan },
    [plan],
  );
  const computed = useComputed(computation);
  if (quick === null) return null;
  if (computed?.kind === "guess") return { found: computed.guess, isFinal: true };
  return { found: quick, isFinal: computation === null };
}

/** The planner's curve; empty while it is being computed. */
export function useChangesTold(
  settings: PrecisionSettings,
  mostSessions: number,
): readonly ChangeTold[] {
  const computation = useMemo(
    (): Computation => ({ kind: "changes", settings, mostSessions }),
    [settings, mostSessions],
  );
  const computed = useComputed(computation);
  return computed?.kind === "changes" ? computed.changes : [];
}

/** The prices that fit what a class earns; null without students to price for, and while they are computed. */
export function useComputedPrices(inputs: PriceInputs | null): Prices | null {
  const computation = useMemo(
    (): Computation | null => (inputs === null ? null : { kind: "prices", inputs }),
    [inputs],
  );
  const computed = useComputed(computation);
  return computed?.kind === "prices" ? computed.prices : null;
}
