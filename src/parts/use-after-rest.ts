import { useEffect, useRef } from "react";

/**
 * Does something once all is at rest: so long after the part came, or after the last change of what is watched.
 *
 * @param watched any change of one of these begins the wait anew; always as many
 * @param restMs how long the rest has to last, in ms
 * @param then what is done, as the newest drawing has it
 */
export function useAfterRest(watched: readonly unknown[], restMs: number, then: () => void): void {
  const newest = useRef(then);
  newest.current = then;
  // What is watched is not read in here: that it changed is all that matters.
  useEffect(() => {
    const timer = setTimeout(() => newest.current(), restMs);
    return () => clearTimeout(timer);
  }, [restMs, ...watched]);
}
