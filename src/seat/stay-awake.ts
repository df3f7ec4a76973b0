/** What newer browsers have, on an encrypted line alone. */
interface Wakeful {
  readonly wakeLock?: {
    request(kind: "screen"): Promise<{ release(): Promise<void> }>;
  };
}

/**
 * Keeps the screen on while a session runs, where the browser can; a device may refuse, for instance when
 * its battery is low, and then sleeps as it is set.
 */
export function stayAwake() {
  const { wakeLock } = navigator as Wakeful;
  let isWanted = false;
  let held: { release(): Promise<void> } | null = null;
  const nothing = () => undefined;

  function ask(): void {
    if (wakeLock === undefined || !isWanted || document.hidden) return;
    wakeLock.request("screen").then((lock) => {
      if (held !== null) held.release().then(nothing, nothing);
      held = lock;
      if (!isWanted) letGo();
    }, nothing);
  }

  function letGo(): void {
    if (held !== null) held.release().then(nothing, nothing);
    held = null;
  }

  return {
    /** Whether a session runs, so that cues may come. */
    want(wanted: boolean): void {
      if (wanted === isWanted) return;
      isWanted = wanted;
      if (wanted) ask();
      else letGo();
    },
    /** A page that was out of sight has lost what it held. */
    again: ask,
  };
}
