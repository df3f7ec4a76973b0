import type { CueCall, CueMeans } from "../../../shared/api/sessions.ts";
import { bell, leavable } from "../base/stream.ts";

/** A window that lets this many calls lie has stopped listening. */
const longestQueue = 64;

/** Why a window is left that may go on with what it was told of. */
const stillSounds = Symbol("still sounds");

/** The better means come first. */
const rank: Record<CueMeans, number> = { sound: 2, sight: 1, none: 0 };

interface Window {
  readonly name: string;
  readonly queue: CueCall[];
  readonly leaving: AbortController;
  can: CueMeans;
}

/**
 * The windows of a running session, of which one gives its cues. The one that has the task keeps it while no
 * other can do it better: sound before sight, sight before nothing. When it goes, the best of the others has
 * it, the longest there first.
 */
export interface Sounders {
  readonly present: boolean;
  /** A window that joins once more under its name leaves first. */
  join(
    name: string,
    can: CueMeans,
    signal: AbortSignal,
  ): AsyncIterableIterator<CueCall, undefined, undefined>;
  /** A window says what it can do from now on; one that has not joined says nothing new. */
  means(name: string, can: CueMeans): void;
  /** A window goes by its own word; true when it had the task. */
  leave(name: string): boolean;
  /** Tells the window that has the task. */
  tell(call: CueCall): void;
  /** Ends every stream, once its window has taken what it was told. */
  close(): void;
}

/**
 * @param changed called after a window came or went, or the task went over to another
 * @param handOn called before the task leaves a window that will not begin what it was told of: one whose
 *   line is gone (its page is gone too, or takes back its cues when it sees that), or one that hears that
 *   another does better. A window that only stopped listening may still sound, so nothing of its is handed on.
 */
export function sounders(changed: () => void, handOn: () => void): Sounders {
  const windows: Window[] = [];
  const told = bell();
  let holder: Window | null = null;
  let closed = false;

  function put(window: Window, call: CueCall): void {
    if (window.queue.length >= longestQueue) window.leaving.abort(stillSounds);
    else window.queue.push(call);
    told.ring();
  }

  /** Gives the task to who does it best, and says to all who has it. */
  function settle(): void {
    let best = holder;
    for (const window of windows) {
      if (best === null || rank[window.can] > rank[best.can]) best = window;
    }
    if (holder !== null && best !== holder) {
      handOn();
      changed();
    }
    holder = best;
    if (best === null) return;
    for (const window of [...windows]) {
      put(window, {
        kind: "sounder",
        yours: window === best,
        can: best.can,
        windows: windows.length,
      });
    }
  }

  function leave(window: Window): void {
    const place = windows.indexOf(window);
    if (place < 0) return;
    windows.splice(place, 1);
    if (closed) return;
    if (holder === window) {
      if (window.leaving.signal.reason !== stillSounds) handOn();
      holder = null;
    }
    settle();
    changed();
  }

  return {
    get present() {
      return windows.length > 0;
    },
    join(name, can, signal) {
      const window: Window = { name, can, queue: [], leaving: new AbortController() };
      const either = AbortSignal.any([signal, window.leaving.signal]);
      if (closed || either.aborted) window.leaving.abort();
      else {
        windows.find((other) => other.name === name)?.leaving.abort();
        windows.push(window);
        either.addEventListener("abort", () => leave(window), { once: true });
        settle();
        changed();
      }
      const calls = async function* (signal: AbortSignal) {
        while (!signal.aborted) {
          const call = window.queue.shift();
          if (call !== undefined) yield call;
          else if (closed) return;
          else await told.rung(signal);
        }
      };
      return leavable(either, calls, () => window.leaving.abort());
    },
    means(name, can) {
      const window = windows.find((each) => each.name === name);
      if (window === undefined || window.can === can) return;
      window.can = can;
      settle();
    },
    leave(name) {
      const window = windows.find((each) => each.name === name);
      const hadTask = window !== undefined && window === holder;
      window?.leaving.abort();
      return hadTask;
    },
    tell(call) {
      if (holder !== null) put(holder, call);
    },
    close() {
      closed = true;
      holder = null;
      windows.length = 0;
      told.ring();
    },
  };
}
