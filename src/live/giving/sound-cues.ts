import type { Session } from "../../../shared/api/sessions.ts";
import { appPlayer, onCueOutcome, onSoundStatus } from "../../sound/app-player.ts";
import type { SoundFailure, SoundStatus } from "../../sound/decide-start.ts";
import { type CueGiving, type CueLine, cueReports } from "./cue-line.ts";

/** Cues that sound; one that cannot is shown. */
export function soundCues(
  line: CueLine,
  chime: Session["plan"]["chime"],
  volume: number,
  tell: {
    readonly onStatus: (status: SoundStatus) => void;
    readonly onFailure: (failure: SoundFailure | null) => void;
  },
): CueGiving {
  const { sync } = line;
  const { onStatus, onFailure } = tell;
  const { sounded, show, stop } = cueReports(line);
  /** When the cues that were announced and have not begun are due. */
  const waiting = new Map<number, number>();
  let isLoaded = true;
  const player = appPlayer();
  player.load([chime]).catch(() => {
    isLoaded = false;
    onFailure("load-failed");
  });
  // The others announce begin and end; a session is held without them.
  player.load().catch(() => undefined);
  player.beginSession();
  onStatus(player.status());
  const stopStatus = onSoundStatus(onStatus);
  const stopOutcomes = onCueOutcome((outcome) => {
    const { cue } = outcome;
    const due = waiting.get(cue) ?? 0;
    waiting.delete(cue);
    onFailure(outcome.kind === "began" ? null : outcome.reason);
    if (outcome.kind === "began") sounded(cue, sync.monotonicMsAt(outcome.beganAtMs) ?? due);
    else void show(cue, due, outcome.reason);
  });
  const cancel = (cue: number) => {
    waiting.delete(cue);
    player.cancel(cue);
  };
  return {
    announced: (cue, dueMonotonicMs) => {
      const dueAtMs = sync.pageMsAt(dueMonotonicMs);
      if (dueAtMs === null) return;
      waiting.set(cue, dueMonotonicMs);
      player.schedule({ cue, chime, volume }, dueAtMs);
    },
    cancel,
    cancelAll: () => {
      for (const cue of [...waiting.keys()]) cancel(cue);
    },
    canSound: () => isLoaded && player.status() === "ready",
    stop: () => {
      stopStatus();
      stopOutcomes();
      stop();
      player.endSession();
    },
  };
}
