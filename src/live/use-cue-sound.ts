import { useEffect, useState } from "react";
import type { Session } from "../../shared/api/sessions.ts";
import type { Api } from "../api/api.ts";
import { useConnection } from "../api/context.tsx";
import { appPlayer, onCueOutcome, onSoundStatus } from "../sound/app-player.ts";
import { type ClockSync, createClockSync } from "../sound/clock-sync.ts";
import type { SoundFailure, SoundStatus } from "../sound/decide-start.ts";
import { pageClock } from "../sound/page-clock.ts";
import { reportUntilHeard } from "./report-until-heard.ts";

export interface CueSound {
  /** Whether this is the window that sounds the cues; null until the desktop side has said so. */
  isSounder: boolean | null;
  status: SoundStatus | "not-wanted";
  /** Why the latest cue did not sound here, or the chime could not be loaded; null while cues sound. */
  failure: SoundFailure | null;
  /** Call within a press: browsers let a page sound only after one. */
  unlock: () => void;
}

export interface CueSights {
  /** Whether this window shows a cue to those who are to notice it. */
  isShown: () => boolean;
  /** Told at the moment of a cue that is only seen. */
  onSeen?: () => void;
}

/**
 * Sounds the cues that the conductor calls, at their moment, and reports when each really began. A cue
 * that cannot sound but is in sight here is reported as shown, with the reason; one that is neither
 * heard nor seen is reported as failed.
 *
 * @param session the running or paused session of which this window wants to sound the cues, or null
 */
export function useCueSound(session: Session | null, sights: CueSights): CueSound {
  const { api, link } = useConnection();
  const isSilent = session?.plan.cueing !== "sound";
  const [isSounder, setIsSounder] = useState<boolean | null>(null);
  const [status, setStatus] = useState<SoundStatus>("locked");
  const [failure, setFailure] = useState<SoundFailure | null>(null);
  const sessionId = session?.id ?? null;
  const { chime = "bell", volume = 0 } = session?.plan ?? {};
  const { isShown, onSeen } = sights;

  useEffect(() => {
    if (sessionId === null) return;
    const sync = createClockSync({
      ask: () => api.sessions.clock(),
      nowMs: pageClock.nowMs,
      after: pageClock.after,
    });
    const stopSync = sync.keepFresh(() => undefined);
    const line: ReportLine = { api, sessionId, sync, isShown };
    const sounding = isSilent
      ? showCues(line, () => onSeen?.())
      : soundCues(line, chime, volume, { onStatus: setStatus, onFailure: setFailure });
    const stopCalls = link.follow({
      open: async (open, signal) => {
        // Without the conductor's clock no cue could be placed, so it is asked for first, again after a lost line.
        if (sync.monotonicMsAt(0) === null) await sync.refresh();
        return open.sessions.cueCalls({ sessionId }, { signal });
      },
      onItem: (call) => {
        if (call.kind === "sounder") setIsSounder(call.yours);
        if (call.kind === "due") sounding.due(call.cue, call.dueMonotonicMs);
        if (call.kind === "cancelled") sounding.cancel(call.cue);
      },
      onState: (state) => {
        // Another window may have taken over while the line was down.
        if (state === "waiting") setIsSounder(null);
      },
    });
    return () => {
      stopCalls();
      stopSync();
      sounding.stop();
      setIsSounder(null);
      setFailure(null);
    };
  }, [api, link, sessionId, isSilent, chime, volume, isShown, onSeen]);

  return {
    isSounder,
    status: isSilent ? "not-wanted" : status,
    failure,
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

interface ReportLine {
  api: Api;
  sessionId: string;
  sync: ClockSync;
  isShown: () => boolean;
}

/** A window that has just been told that sound is off gets so long to put the cue in sight, in ms. */
const bringInSightMs = 300;

/** Reports that go on until they are heard, and end when this window gives up the task. */
function reports({ api, sessionId, isShown }: ReportLine) {
  const sending = new Set<() => void>();
  const report = (send: () => Promise<unknown>) => {
    sending.add(reportUntilHeard(send, pageClock.after));
  };
  return {
    sounded(cue: number, beganMonotonicMs: number) {
      const began = { sessionId, cue, beganMonotonicMs, by: "sound", problem: null } as const;
      report(() => api.sessions.cueBegan(began));
    },
    seen(cue: number, beganMonotonicMs: number, problem: string | null) {
      const tell = () => {
        const began = { sessionId, cue, beganMonotonicMs, by: "sight", problem } as const;
        report(() =>
          isShown()
            ? api.sessions.cueBegan(began)
            : api.sessions.cueFailed({ sessionId, cue, problem: problem ?? "not-shown" }),
        );
      };
      if (isShown()) tell();
      else sending.add(pageClock.after(bringInSightMs, tell));
    },
    stop() {
      for (const stopOne of sending) stopOne();
    },
  };
}

function soundCues(
  line: ReportLine,
  chime: Session["plan"]["chime"],
  volume: number,
  tell: {
    readonly onStatus: (status: SoundStatus) => void;
    readonly onFailure: (failure: SoundFailure | null) => void;
  },
): Sounding {
  const { sync } = line;
  const { onStatus, onFailure } = tell;
  const { sounded, seen, stop } = reports(line);
  const dueMoments = new Map<number, number>();
  const player = appPlayer();
  player.load([chime]).catch(() => onFailure("load-failed"));
  // The others announce begin and end; a session is held without them.
  player.load().catch(() => undefined);
  player.beginSession();
  onStatus(player.status());
  const stopStatus = onSoundStatus(onStatus);
  const stopOutcomes = onCueOutcome((outcome) => {
    const { cue } = outcome;
    const atMs = outcome.kind === "began" ? outcome.beganAtMs : pageClock.nowMs();
    const moment = sync.monotonicMsAt(atMs) ?? dueMoments.get(cue) ?? 0;
    onFailure(outcome.kind === "began" ? null : outcome.reason);
    if (outcome.kind === "began") sounded(cue, moment);
    else seen(cue, moment, outcome.reason);
  });
  return {
    due: (cue, dueMonotonicMs) => {
      dueMoments.set(cue, dueMonotonicMs);
      const dueAtMs = sync.pageMsAt(dueMonotonicMs);
      if (dueAtMs === null) return;
      player.schedule({ cue, chime, volume }, dueAtMs);
    },
    cancel: (cue) => player.cancel(cue),
    stop: () => {
      stopStatus();
      stopOutcomes();
      stop();
      player.endSession();
    },
  };
}

/** Cues that are only seen: reported at their moment, and the log's `delivered` makes every window show it. */
function showCues(line: ReportLine, onSeen: () => void): Sounding {
  const { sync } = line;
  const { seen, stop } = reports(line);
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
          onSeen();
          seen(cue, sync.monotonicMsAt(pageClock.nowMs()) ?? dueMonotonicMs, null);
        }),
      );
    },
    cancel,
    stop: () => {
      for (const stopOne of waiting.values()) stopOne();
      waiting.clear();
      stop();
    },
  };
}
