import { useEffect, useEffectEvent } from "react";

/** Ctrl+S, or Cmd+S on a Mac, saves the form instead of the page. */
export function useSaveKey(save: () => void): void {
  const onKey = useEffectEvent((event: KeyboardEvent) => {
    const isSave = (event.ctrlKey || event.metaKey) && !event.altKey && !event.shiftKey;
    if (!isSave || event.key.toLowerCase() !== "s") return;
    event.preventDefault();
    save();
  });
  useEffect(() => {
    const listener = (event: KeyboardEvent) => onKey(event);
    window.addEventListener("keydown", listener);
    return () => window.removeEventListener("keydown", listener);
  }, []);
}
