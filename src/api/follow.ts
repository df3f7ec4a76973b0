import type { Api, Followed } from "./api.ts";
import { isUnreachable } from "./api-error.ts";

/** Pause before a stream that broke is opened again, in ms; the line itself is waited for anyway. */
const pauseMs = 50;

/**
 * Follows a resumable stream through reloads of the other half, sleep and lost lines. A line that is down
 * is waited for, however long it takes; any other failure ends the following.
 * @returns the way to stop; nothing is told after it was called
 */
export function follow<Item>(api: Api, stream: Followed<Item>): () => void {
  const stopping = new AbortController();
  void run(api, stream, stopping.signal);
  return () => stopping.abort();
}

async function run<Item>(api: Api, stream: Followed<Item>, signal: AbortSignal): Promise<void> {
  while (!signal.aborted) {
    stream.onState?.("waiting");
    try {
      const items = await stream.open(api, signal);
      if (signal.aborted) return;
      stream.onState?.("live");
      for await (const item of items) {
        if (signal.aborted) return;
        stream.onItem(item);
      }
      if (!signal.aborted) stream.onState?.("ended");
      return;
    } catch (error) {
      if (signal.aborted) return;
      if (!isUnreachable(error)) {
        stream.onState?.("ended");
        if (stream.onError === undefined) console.error(error);
        stream.onError?.(error);
        return;
      }
      await pause(signal);
    }
  }
}

function pause(signal: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    const finish = () => {
      clearTimeout(timer);
      signal.removeEventListener("abort", finish);
      resolve();
    };
    const timer = setTimeout(finish, pauseMs);
    signal.addEventListener("abort", finish);
  });
}
