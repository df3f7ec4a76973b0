import type { CueCall } from "../../../shared/api/sessions.ts";
import { bell, leavable } from "../base/stream.ts";

/** A window that lets this many calls lie has stopped listening. */
const longestQueue = 64;

interface Window {
  readonly queue: CueCall[];
  readonly leaving: AbortController;
}

/**
 * The windows that could sound a session's cues, in the order in which they asked. The first has the
 * task; when it goes, the next one has it.
 */
export interface Sounders {
  readonly present: boolean;
  join(signal: AbortSignal): AsyncIterableIterator<CueCall, undefined, undefined>;
  /** Tells the window that has the task. */
  tell(call: CueCall): void;
  /** Ends every stream, once its window has taken what it was told. */
  close(): void;
}

/** @param changed called after a window came or went */
export function sounders(changed: () => void): Sounders {
  const windows: Window[] = [];
  const told = bell();
  let closed = false;

  function put(window: Window, call: CueCall): void {
    if (window.queue.length >= longestQueue) window.leaving.abort();
    else window.queue.push(call);
    told.ring();
  }

  function leave(window: Window): void {
    const place = windows.indexOf(window);
    if (place < 0) return;
    windows.splice(place, 1);
    const next = windows[0];
    if (place === 0 && next !== undefined) put(next, { kind: "sounder", yours: true });
    if (!closed) changed();
  }

  return {
    get present() {
      return windows.length > 0;
    },
    join(signal) {
      const window: Window = { queue: [], leaving: new AbortController() };
      const either = AbortSignal.any([signal, window.leaving.signal]);
      if (closed || either.aborted) window.leaving.abort();
      else {
        windows.push(window);
        put(window, { kind: "sounder", yours: windows[0] === window });
        either.addEventListener("abort", () => leave(window), { once: true });
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
    tell(call) {
      const first = windows[0];
      if (first !== undefined) put(first, call);
    },
    close() {
      closed = true;
      windows.length = 0;
      told.ring();
    },
  };
}
