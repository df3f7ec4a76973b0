import { useEffect } from "react";

/**
 * Has the browser ask before this page goes; the desktop shell asks by itself.
 *
 * @param isLast whether with this page the last one of a running session would go
 */
export function useAskBeforeClosing(isLast: boolean): void {
  useEffect(() => {
    if (!isLast || window.pebblechime !== undefined) return;
    const ask = (event: BeforeUnloadEvent) => event.preventDefault();
    window.addEventListener("beforeunload", ask);
    return () => window.removeEventListener("beforeunload", ask);
  }, [isLast]);
}
