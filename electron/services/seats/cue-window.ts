import type { Conductor } from "../live/conductor.ts";

/** The name under which seats show cues among the windows of a session. */
const name = "seats";

/**
 * Seats together are one more window that can show a session's cues: where no other shows or sounds them, the
 * first device that showed one delivers it. A window that sounds goes first, and so does a board.
 */
export function cueWindow(running: Conductor, report: (error: unknown) => void) {
  let session: string | null = null;
  let leaving = new AbortController();
  let isOurs = false;
  /** The newest cue that a device has shown: the others who show it tell nothing new. */
  let newest = 0;

  async function follow(sessionId: string, signal: AbortSignal): Promise<void> {
    for await (const call of running.cueCalls(sessionId, name, "sight", signal)) {
      if (call.kind === "sounder") isOurs = call.yours;
    }
    if (session === sessionId && !signal.aborted) session = null;
  }

  return {
    /** Shows the cues of a session from now on, or of none. */
    show(sessionId: string | null): void {
      if (sessionId === session) return;
      leaving.abort();
      leaving = new AbortController();
      session = sessionId;
      isOurs = false;
      newest = 0;
      if (sessionId !== null) follow(sessionId, leaving.signal).catch(report);
    },
    /** A device showed a cue, in ms of the conductor's clock. */
    shown(cue: number, beganMonotonicMs: number): void {
      if (session === null || !isOurs || cue <= newest) return;
      newest = cue;
      running.cueDelivered(session, { cue, beganMonotonicMs, by: "sight", problem: null });
    },
  };
}
export type CueWindow = ReturnType<typeof cueWindow>;
