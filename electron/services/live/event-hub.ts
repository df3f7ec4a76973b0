import type { SessionEvent } from "../../../shared/session/event.ts";
import { bell, leavable } from "../base/stream.ts";

/**
 * Streams of session events for whoever watches. A watcher holds only its place in the log and reads
 * on from the store at its own pace, so replaying and following live are one thing, and a slow watcher
 * costs no memory and holds nobody up.
 */
export interface EventHub {
  /** All events after `after`, then each new one; ends when the session can grow no more. */
  watch(
    sessionId: string,
    after: number,
    signal: AbortSignal,
  ): AsyncIterableIterator<SessionEvent, undefined, undefined>;
  /** Something was written, or a session was closed. */
  news(): void;
}

/**
 * @param read events of a session numbered above `after`, in order
 * @param canGrow whether more may come without anybody opening an old session
 */
export function eventHub(
  read: (sessionId: string, after: number) => readonly SessionEvent[],
  canGrow: (sessionId: string) => boolean,
): EventHub {
  const written = bell();
  return {
    watch: (sessionId, after, signal) =>
      leavable(signal, async function* follow(signal) {
        let place = after;
        while (!signal.aborted) {
          // Asked before reading, so that an event written in between is not slept through; reading
          // and the start of waiting are one turn of the event loop.
          const growing = canGrow(sessionId);
          const events = read(sessionId, place);
          for (const event of events) {
            yield event;
            if (signal.aborted) return;
            place = event.stamp.seq;
          }
          if (events.length > 0) continue;
          if (!growing) return;
          await written.rung(signal);
        }
      }),
    news: () => written.ring(),
  };
}
