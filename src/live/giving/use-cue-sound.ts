import { useCallback, useEffect, useState } from "react";
import type { CueMeans, Session } from "../../../shared/api/sessions.ts";
import { useConnection } from "../../api/context.tsx";
import { appPlayer } from "../../sound/app-player.ts";
import { createClockSync } from "../../sound/clock-sync.ts";
import type { SoundFailure, SoundStatus } from "../../sound/decide-start.ts";
import { pageClock } from "../../sound/page-clock.ts";
import { offerMeans } from "./cue-means.ts";
import { showCues } from "./show-cues.ts";
import { soundCues } from "./sound-cues.ts";
import { windowName } from "./window-name.ts";

/** Who gives the cues of the running session. */
export interface CueGiver {
  /** Whether it is this window. */
  readonly isHere: boolean;
  readonly can: CueMeans;
  /** How many windows could give them, this one among them. */
  readonly windows: number;
}

export interface CueSound {
  /** Null until the desktop side has said so, and while it does not answer. */
  giver: CueGiver | null;
  status: SoundStatus | "not-wanted";
  /** Why the latest cue did not sound here, or the chime could not be loaded; null while cues sound. */
  failure: SoundFailure | null;
  /** Call within a press: browsers let a page sound only after one. */
  unlock: () => void;
}

interface Wish {
  /** Whether this window comes before others that have just found the session too. */
  readonly isFirst: (sessionId: string) => boolean;
  /** Told at the moment of a cue that is only seen. */
  readonly onSeen?: (() => void) | undefined;
}

/**
 * Offers to give the cues of a running session, and gives them while this is the window that does it best:
 * sounds each at its moment, and reports when it really began. A cue that cannot sound is shown here and
 * reported as shown, with the reason, once it was painted; one that is neither heard nor seen is reported
 * as undelivered.
 *
 * @param session the running or paused session, or null
 * @param wish made once: another one has the offer made anew
 */
export function useCueSound(session: Session | null, { isFirst, onSeen }: Wish): CueSound {
  const { api, link } = useConnection();
  const isSilent = session?.plan.cueing !== "sound";
  const [giver, setGiver] = useState<CueGiver | null>(null);
  const [status, setStatus] = useState<SoundStatus>("locked");
  const [failure, setFailure] = useState<SoundFailure | null>(null);
  const sessionId = session?.id ?? null;
  const { chime = "bell", volume = 0 } = session?.plan ?? {};

  useEffect(() => {
    if (sessionId === null) return;
    const sync = createClockSync({
      ask: () => api.sessions.clock(),
      nowMs: pageClock.nowMs,
      after: pageClock.after,
    });
    const stopSync = sync.keepFresh(() => undefined);
    const line = { api, sessionId, sync };
    const sounding = isSilent
      ? showCues(line, () => onSeen?.())
      : soundCues(line, chime, volume, { onStatus: setStatus, onFailure: setFailure });
    const own = { sessionId, window: windowName };
    const means = offerMeans(sounding.canSound, isFirst(sessionId), (can) => {
      // Told anew with the next opening of the calls when the line is down.
      api.sessions.cueMeans({ ...own, can }).catch(() => undefined);
    });
    const stopCalls = link.follow({
      open: async (open, signal) => {
        // Without the conductor's clock no cue could be placed, so it is asked for first, again after a lost line.
        await sync.first();
        return means.join((can) => open.sessions.cueCalls({ ...own, can }, { signal }));
      },
      onItem: (call) => {
        if (call.kind === "announced") sounding.announced(call.cue, call.dueMonotonicMs);
        if (call.kind === "cancelled") sounding.cancel(call.cue);
        if (call.kind !== "sounder") return;
        const { yours, can, windows } = call;
        setGiver({ isHere: yours, can, windows });
      },
      onState: (state) => {
        if (state !== "waiting") return;
        // Another window may give what this one was told of.
        sounding.cancelAll();
        setGiver(null);
      },
    });
    // A page that goes takes its sounds with it, so that another window can give the cue it was told of.
    const goodbye = () => {
      sounding.cancelAll();
      api.sessions.leaveCues(own).catch(() => undefined);
    };
    window.addEventListener("pagehide", goodbye);
    return () => {
      window.removeEventListener("pagehide", goodbye);
      goodbye();
      stopCalls();
      stopSync();
      means.stop();
      sounding.stop();
      setGiver(null);
      setFailure(null);
    };
  }, [api, link, sessionId, isSilent, chime, volume, isFirst, onSeen]);

  const unlock = useCallback(() => {
    if (!isSilent) void appPlayer().unlock().then(setStatus);
  }, [isSilent]);

  return {
    giver,
    status: isSilent ? "not-wanted" : status,
    failure,
    unlock,
  };
}
