import type { PowerMonitor, PowerSaveBlocker } from "electron";

/**
 * Keeps the computer from falling asleep while a session is live, and the display too while the class
 * board is shown. It cannot keep a closing lid from putting the computer to sleep.
 */
export class Wakefulness {
  readonly #blocker: PowerSaveBlocker;
  #live = false;
  #boardShown = false;
  #held: { readonly id: number; readonly kind: Kind } | null = null;

  constructor(blocker: PowerSaveBlocker) {
    this.#blocker = blocker;
  }

  setLive(live: boolean): void {
    this.#live = live;
    this.#settle();
  }

  setBoardShown(shown: boolean): void {
    this.#boardShown = shown;
    this.#settle();
  }

  #settle(): void {
    const wanted = wantedKind(this.#live, this.#boardShown);
    if (wanted === (this.#held?.kind ?? null)) return;
    const old = this.#held;
    this.#held = wanted === null ? null : { id: this.#blocker.start(wanted), kind: wanted };
    if (old !== null) this.#blocker.stop(old.id);
  }
}

type Kind = Parameters<PowerSaveBlocker["start"]>[0];

function wantedKind(live: boolean, boardShown: boolean): Kind | null {
  if (!live) return null;
  return boardShown ? "prevent-display-sleep" : "prevent-app-suspension";
}

/**
 * Passes on the system's word about sleep. It is only a hint: some systems say nothing, so the conductor
 * also compares its clocks.
 */
export function hearSleep(
  monitor: PowerMonitor,
  listener: { suspend(): void; wake(): void; locked(): void },
): void {
  monitor.on("suspend", () => listener.suspend());
  monitor.on("resume", () => listener.wake());
  monitor.on("lock-screen", () => listener.locked());
}
