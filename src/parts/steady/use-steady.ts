import { useLayoutEffect, useRef } from "react";

/** A press so soon after a control has appeared was meant for what stood there before, in ms. */
const appearMs = 300;

/** What a press was begun on. */
export interface Steady {
  /** At the press's begin. */
  begin: () => void;
  /** At its end: whether it was begun on what is shown now, and not too soon. */
  isMeant: () => boolean;
}

/**
 * Tells presses that were meant from those that hit what has just appeared or changed under the hand.
 *
 * @param shown what the control stands for now; any change of it starts the wait anew
 * @param restMs how long nothing is taken after such a change, in ms
 */
export function useSteady(shown: unknown, restMs = appearMs): Steady {
  const changedAt = useRef(Number.NEGATIVE_INFINITY);
  const begunOn = useRef<unknown>(null);
  const isReady = useRef(false);
  // Before the change is painted: nobody can press what nobody has seen.
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is shown is not read here; its change is what matters
  useLayoutEffect(() => {
    changedAt.current = performance.now();
  }, [shown]);
  return {
    begin: () => {
      begunOn.current = shown;
      isReady.current = performance.now() - changedAt.current >= restMs;
    },
    isMeant: () => isReady.current && Object.is(begunOn.current, shown),
  };
}
