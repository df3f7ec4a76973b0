import type { Link, LinkState } from "./api.ts";
import { unreachable } from "./api-error.ts";
import { NotLetIn, type NotLetInReason } from "./enter.ts";

/** A line that is opened again whenever it goes down. */
export interface Connection<Line>
  extends Pick<Link, "state" | "barredFor" | "onState" | "retryNow" | "close"> {
  /** Lays the present line aside and opens another at once. */
  renew(): void;
  /** The open line, or the next one; rejects with `unreachable` when that takes too long. */
  line(signal?: AbortSignal): Promise<Line>;
}

/** What is kept open. */
export interface Closable {
  onClose(listener: () => void): void;
  close(): void;
}

export interface Patience {
  /** Pause before the n-th attempt in a row (1, 2, ...), in ms. */
  readonly pauseMs: (attempt: number) => number;
  /** How long a new call waits for the line to come back before it fails, in ms. */
  readonly callMs: number;
}

/** Quick at first, then every four seconds: the other half is on the same machine. */
export const usualPatience: Patience = {
  pauseMs: (attempt) => Math.min(4_000, 100 * 2 ** (attempt - 1)),
  callMs: 5_000,
};

/**
 * Opens a line and, whenever it goes down, opens the next.
 */
export function keepConnected<Line extends Closable>(
  open: () => Promise<Line>,
  patience: Patience = usualPatience,
): Connection<Line> {
  const listeners = new Set<(state: LinkState) => void>();
  let state: LinkState = "connecting";
  let current: Line | null = null;
  let attempts = 0;
  /** Counts the attempts; one that was overtaken by a newer one is given up. */
  let newest = 0;
  let reason: NotLetInReason | null = null;
  let pause: ReturnType<typeof setTimeout> | undefined;

  const become = (next: LinkState) => {
    if (state === next) return;
    state = next;
    for (const listener of [...listeners]) listener(next);
  };

  const retryLater = () => {
    if (isOver()) return;
    current = null;
    attempts += 1;
    become("lost");
    pause = setTimeout(attempt, patience.pauseMs(attempts));
  };

  async function attempt(): Promise<void> {
    become("connecting");
    newest += 1;
    const own = newest;
    let line: Line;
    try {
      line = await open();
    } catch (error) {
      if (own !== newest) return;
      if (error instanceof NotLetIn && !isOver()) {
        reason = error.reason;
        become("barred");
      } else retryLater();
      return;
    }
    if (isOver() || own !== newest) {
      line.close();
      return;
    }
    current = line;
    attempts = 0;
    line.onClose(() => {
      if (current === line) retryLater();
    });
    if (current === line) become("open");
  }

  // A function, because the compiler would otherwise hold the state for unchanged across an await.
  const isOver = () => state === "closed" || state === "barred";

  const line = (signal?: AbortSignal) =>
    new Promise<Line>((resolve, reject) => {
      if (current !== null) return resolve(current);
      if (isOver()) return reject(unreachable());
      if (signal?.aborted) return reject(signal.reason);
      const finish = (end: () => void) => {
        clearTimeout(giveUp);
        listeners.delete(look);
        signal?.removeEventListener("abort", cancel);
        end();
      };
      const cancel = () => finish(() => reject(signal?.reason));
      const look = () => {
        const ready = current;
        if (ready !== null && state === "open") finish(() => resolve(ready));
        if (isOver()) finish(() => reject(unreachable()));
      };
      const giveUp = setTimeout(() => finish(() => reject(unreachable())), patience.callMs);
      listeners.add(look);
      signal?.addEventListener("abort", cancel);
    });

  void attempt();
  return {
    line,
    state: () => state,
    barredFor: () => reason,
    onState: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    retryNow: () => {
      if (state !== "lost") return;
      clearTimeout(pause);
      attempts = 0;
      void attempt();
    },
    renew: () => {
      if (isOver()) return;
      clearTimeout(pause);
      attempts = 0;
      const last = current;
      current = null;
      last?.close();
      void attempt();
    },
    close: () => {
      clearTimeout(pause);
      const last = current;
      current = null;
      become("closed");
      last?.close();
    },
  };
}
