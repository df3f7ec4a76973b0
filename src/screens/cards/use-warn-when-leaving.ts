import { useEffect } from "react";

/** The browser asks before it closes a page with marks that are not saved yet. */
export function useWarnWhenLeaving(unsaved: boolean) {
  useEffect(() => {
    if (!unsaved) return;
    const warn = (event: BeforeUnloadEvent) => event.preventDefault();
    window.addEventListener("beforeunload", warn);
    return () => window.removeEventListener("beforeunload", warn);
  }, [unsaved]);
}
