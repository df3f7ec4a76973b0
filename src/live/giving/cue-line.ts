import type { Api } from "../../api/api.ts";
import type { ClockSync } from "../../sound/clock-sync.ts";
import { pageClock } from "../../sound/page-clock.ts";
import { putInSight } from "./cue-in-sight.ts";
import { reportUntilHeard } from "./report-until-heard.ts";

/** What giving the cues of one session needs of the desktop side. */
export interface CueLine {
  readonly api: Api;
  readonly sessionId: string;
  readonly sync: ClockSync;
}

/** A window's way of giving cues: by sound, or by sight alone. */
export interface CueGiving {
  /** A cue comes at this moment of the conductor's clock. */
  announced(cue: number, dueMonotonicMs: number): void;
  cancel(cue: number): void;
  /** Takes back every cue that has not begun. */
  cancelAll(): void;
  /** Whether the next cue could sound here. */
  canSound(): boolean;
  stop(): void;
}

/** Reports that go on until they are heard, and end when this window gives up the task. */
export function cueReports({ api, sessionId, sync }: CueLine) {
  const sending = new Set<() => void>();
  let isStopped = false;
  const report = (send: () => Promise<unknown>) => {
    if (!isStopped) sending.add(reportUntilHeard(send, pageClock.after));
  };
  return {
    sounded(cue: number, beganMonotonicMs: number) {
      const began = { sessionId, cue, beganMonotonicMs, by: "sound", problem: null } as const;
      report(() => api.sessions.cueDelivered(began));
    },
    /** Puts a cue in sight; only what was really painted is reported as shown. */
    async show(cue: number, dueMonotonicMs: number, problem: string | null) {
      const isShown = await putInSight({ sessionId, cue });
      const beganMonotonicMs = sync.monotonicMsAt(pageClock.nowMs()) ?? dueMonotonicMs;
      const began = { sessionId, cue, beganMonotonicMs, by: "sight", problem } as const;
      report(() =>
        isShown
          ? api.sessions.cueDelivered(began)
          : api.sessions.cueUndelivered({ sessionId, cue, problem: problem ?? "not-shown" }),
      );
    },
    stop() {
      isStopped = true;
      for (const stopOne of sending) stopOne();
    },
  };
}
