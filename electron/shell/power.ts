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

/** What a system says of its sleep and of its lock. */
export interface SystemWords {
  suspend(): void;
  wake(): void;
  locked(): void;
  unlocked(): void;
}

/**
 * Passes on the system's words about sleep and its lock. Those about sleep are only hints: some systems say
 * nothing, so the conductor also compares its clocks. Of the lock only Windows and macOS say anything
 * (Electron's documentation of powerMonitor).
 */
export function hearSystem(monitor: Pick<PowerMonitor, "on">, listener: SystemWords): void {
  monitor.on("suspend", () => listener.suspend());
  monitor.on("resume", () => listener.wake());
  monitor.on("lock-screen", () => listener.locked());
  monitor.on("unlock-screen", () => listener.unlocked());
}
