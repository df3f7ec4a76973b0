import { useEffect, useRef, useState } from "react";
import type { Session } from "../../../shared/api/sessions.ts";
import type { Api } from "../../api/api.ts";
import { useConnection } from "../../api/context.tsx";
import { appPlayer, onCueOutcome, onSoundStatus } from "../../sound/app-player.ts";
import { type ClockSync, createClockSync } from "../../sound/clock-sync.ts";
import type { SoundStatus } from "../../sound/decide-start.ts";
import { pageClock } from "../../sound/page-clock.ts";

export interface CueSound {
  /** Whether this is the window that sounds the cues. */
  isSounder: boolean;
  status: SoundStatus | "not-wanted";
  /** Call within a press: browsers let a page sound only after one. */
  unlock: () => void;
}

/**
 * Sounds the cues that the conductor calls, at their moment, and reports when each really began. A cue
 * that cannot sound is shown all the same and reported with the reason.
 */
export function useCueSound(session: Session, isLive: boolean): CueSound {
  const { api, link } = useConnection();
  const isSilent = session.plan.cueing !== "sound";
  const [isSounder, setIsSounder] = useState(false);
  const [status, setStatus] = useState<SoundStatus>("locked");
  const { id: sessionId, plan } = session;
  const syncRef = useRef<ClockSync | null>(null);

  useEffect(() => {
    if (!isLive) return;
    const sync = createClockSync({
      ask: () => api.sessions.clock(),
      nowMs: pageClock.nowMs,
      after: pageClock.after,
    });
    syncRef.current = sync;
    const ready = sync.refresh().catch(() => undefined);
    const stopSync = sync.keepFresh(() => undefined);
    const sounding = isSilent
      ? showCues(api, sessionId, sync)
      : soundCues(api, sessionId, sync, plan.chime, plan.volume, setStatus);
    const stopCalls = link.follow({
      open: async (open, signal) => {
        await ready;
        return open.sessions.cueCalls({ sessionId }, { signal });
      },
      onItem: (call) => {
        if (call.kind === "sounder") setIsSounder(call.yours);
        if (call.kind === "due") sounding.due(call.cue, call.dueMonotonicMs);
        if (call.kind === "cancelled") sounding.cancel(call.cue);
      },
    });
    return () => {
      stopCalls();
      stopSync();
      sounding.stop();
    };
  }, [api, link, sessionId, isLive, isSilent, plan.chime, plan.volume]);

  return {
    isSounder,
    status: isSilent ? "not-wanted" : status,
    unlock: () => {
      if (!isSilent) void appPlayer().unlock().then(setStatus);
    },
  };
}

interface Sounding {
  due: (cue: number, dueMonotonicMs: number) => void;
  cancel: (cue: number) => void;
  stop: () => void;
}

function report(
  api: Api,
  sessionId: string,
  cue: number,
  beganMonotonicMs: number,
  by: "sound" | "sight",
  problem: string | null,
) {
  // A report that is lost leaves the cue "not delivered", which is the truth as far as anyone knows.
  api.sessions.cueBegan({ sessionId, cue, beganMonotonicMs, by, problem }).catch(() => undefined);
}

function soundCues(
  api: Api,
  sessionId: string,
  sync: ClockSync,
  chime: Session["plan"]["chime"],
  volume: number,
  onStatus: (status: SoundStatus) => void,
): Sounding {
  const player = appPlayer();
  player.setVolume(volume);
  player.load().catch(() => undefined);
  player.beginSession();
  onStatus(player.status());
  const stopStatus = onSoundStatus(onStatus);
  const stopOutcomes = onCueOutcome((outcome) => {
    const shownAtMs = outcome.kind === "began" ? outcome.beganAtMs : pageClock.nowMs();
    const moment = sync.monotonicMsAt(shownAtMs) ?? 0;
    if (outcome.kind === "began") report(api, sessionId, outcome.cue, moment, "sound", null);
    else report(api, sessionId, outcome.cue, moment, "sight", outcome.reason);
  });
  return {
    due: (cue, dueMonotonicMs) => {
      const dueAtMs = sync.pageMsAt(dueMonotonicMs);
      if (dueAtMs !== null) player.schedule({ cue, chime }, dueAtMs);
    },
    cancel: (cue) => player.cancel(cue),
    stop: () => {
      stopStatus();
      stopOutcomes();
      player.endSession();
    },
  };
}

/** Cues that are only seen: reported at their moment, and the log's `delivered` makes every window show it. */
function showCues(api: Api, sessionId: string, sync: ClockSync): Sounding {
  const waiting = new Map<number, () => void>();
  const cancel = (cue: number) => {
    waiting.get(cue)?.();
    waiting.delete(cue);
  };
  return {
    due: (cue, dueMonotonicMs) => {
      const dueAtMs = sync.pageMsAt(dueMonotonicMs);
      if (dueAtMs === null) return;
      cancel(cue);
      waiting.set(
        cue,
        pageClock.after(Math.max(0, dueAtMs - pageClock.nowMs()), () => {
          waiting.delete(cue);
          const moment = sync.monotonicMsAt(pageClock.nowMs()) ?? dueMonotonicMs;
          report(api, sessionId, cue, moment, "sight", null);
        }),
      );
    },
    cancel,
    stop: () => {
      for (const stopOne of waiting.values()) stopOne();
      waiting.clear();
    },
  };
}
