import { useEffect, useState, useSyncExternalStore } from "react";

/** The words are away for so long before they stand, so that the same words are read out again, in ms. */
const awayMs = 100;

let wanted = { text: "" };
const listeners = new Set<() => void>();
const follow = (listener: () => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

/** Says to those who hear the screen that something was done. It is never read out who answered what. */
export function announce(text: string): void {
  wanted = { text };
  for (const listener of listeners) listener();
}

/** Where it is said; once in each window. */
export function Announcer() {
  const newest = useSyncExternalStore(follow, () => wanted);
  const [said, setSaid] = useState("");
  useEffect(() => {
    setSaid("");
    if (newest.text === "") return;
    const timer = setTimeout(() => setSaid(newest.text), awayMs);
    return () => clearTimeout(timer);
  }, [newest]);
  return (
    <p className="only-for-readers" role="status">
      {said}
    </p>
  );
}
