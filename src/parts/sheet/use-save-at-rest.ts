import { useEffect, useRef } from "react";

/** How long the hand rests before what was typed is saved by itself. */
const restMs = 1_000;

/**
 * Saves a sheet when the hand rests, and when it gives way to another page or day. A window that is closed, or a
 * computer that stops, costs no more than the last key or two; so nothing has to ask before it closes.
 *
 * @param typed what was typed; each change starts the wait anew
 */
export function useSaveAtRest(typed: unknown, unsaved: boolean, save: () => void) {
  // biome-ignore lint/correctness/useExhaustiveDependencies: only a change of the sheet starts the wait anew
  useEffect(() => {
    if (!unsaved) return;
    const rest = setTimeout(save, restMs);
    return () => clearTimeout(rest);
  }, [typed, unsaved]);
  const last = useRef(() => {});
  last.current = () => {
    if (unsaved) save();
  };
  useEffect(() => () => last.current(), []);
}
