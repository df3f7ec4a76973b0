import { useEffect } from "react";
import { useSettings } from "../api/queries.ts";

/** What a key is typed into, or what has it to itself: fields, dialogs, and the children's tiles. */
const takers = "input, textarea, select, [contenteditable], [role=listbox], [role=menu], .tiles";
const dialogs = "[role=dialog], [role=alertdialog]";

/** Whether a key is a command of its own: no part of a chord, not held down, and nobody else's. */
function isFree(event: KeyboardEvent): boolean {
  if (event.repeat || event.defaultPrevented || event.isComposing) return false;
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  if (event.target instanceof Element && event.target.closest(takers) !== null) return false;
  return document.querySelector(dialogs) === null;
}

/**
 * Commands of one key for the adult whose hand is on the keyboard. They rest while a dialog is open, while
 * something is typed, and while the focus is on a child's tile; and they can be switched off in the
 * settings, for people whose speech or tremor would set them off. Escape is no such key: it always closes
 * what is open, and is told here only when nothing is.
 */
export function useSingleKeys(onKey: (event: KeyboardEvent) => void): void {
  // Until the settings are known no key is taken.
  const areOn = useSettings()?.singleKeys ?? false;
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      if (!isFree(event)) return;
      if (areOn || event.key === "Escape") onKey(event);
    };
    window.addEventListener("keydown", listen);
    return () => window.removeEventListener("keydown", listen);
  });
}
