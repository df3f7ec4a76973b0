import { ApiError } from "../../api/api-error.ts";
import type { PageClock } from "../../sound/audio-output.ts";

/** Pause before a report that did not arrive is sent again, in ms. */
const pauseMs = 400;

/**
 * Sends a report until the desktop side has answered it. A report may be said twice without harm, so
 * whatever only failed is sent again; a refusal, or an input that is not understood, is an answer.
 *
 * @returns the way to stop trying
 */
export function reportUntilHeard(
  send: () => Promise<unknown>,
  after: PageClock["after"],
): () => void {
  let stopped = false;
  let cancel = () => {};
  const attempt = async () => {
    try {
      await send();
    } catch (error) {
      if (stopped || isAnswer(error)) return;
      cancel = after(pauseMs, attempt);
    }
  };
  void attempt();
  return () => {
    stopped = true;
    cancel();
  };
}

function isAnswer(error: unknown): boolean {
  if (!(error instanceof ApiError)) return false;
  return error.failure.kind !== "unreachable" && error.failure.kind !== "failed";
}
