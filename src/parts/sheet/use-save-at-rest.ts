import { useEffect, useRef } from "react";
import { useAfterRest } from "../use-after-rest.ts";

/** How long the hand rests before what was typed is saved by itself. */
const restMs = 1_000;

/**
 * Saves a sheet when the hand rests, and when it gives way to another page or day. A window that is closed, or a
 * computer that stops, costs no more than the last key or two; so nothing has to ask before it closes.
 *
 * @param typed what was typed; each change starts the wait anew
 */
export function useSaveAtRest(typed: unknown, unsaved: boolean, save: () => void) {
  const saveNow = () => {
    if (unsaved) save();
  };
  useAfterRest([typed, unsaved], restMs, saveNow);
  const last = useRef(saveNow);
  last.current = saveNow;
  useEffect(() => () => last.current(), []);
}
