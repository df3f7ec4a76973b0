import type { FromSeat } from "../../../shared/seats/message.ts";
import type { DesktopClock } from "../base/clock.ts";
import type { Conductor } from "../live/conductor.ts";
import type { CueWindow } from "./cue-window.ts";
import type { Device } from "./device.ts";
import type { RoomNow } from "./room-now.ts";
import { nameOnLine } from "./session-for-seats.ts";
import type { ShownCues } from "./shown-cues.ts";

/** How much earlier or later than due a device may say that it showed a cue, in ms of real time. */
const beganWithinMs = 5_000;

interface ShownHereOptions {
  readonly clock: Pick<DesktopClock, "speed">;
  readonly running: Pick<Conductor, "ownCueShown">;
  readonly now: RoomNow;
  readonly shown: ShownCues;
  readonly window: Pick<CueWindow, "shown">;
  readonly report: (error: unknown) => void;
}

/** Hears from devices that they showed a cue: the first one delivers it. */
export function shownHere({ clock, running, now, shown, window, report }: ShownHereOptions) {
  function noteShown(device: Device, name: string, cue: number, at: number): void {
    const beganMonotonicMs = at * clock.speed;
    if (now.present()?.state.isOwn) {
      const cued = now.cuedBy(device.student);
      if (cued === null || !shown.wasTold(name, device.seat.id)) return;
      shown.began(name, device.seat.id, at);
      running.ownCueShown(cued.session.id, { studentId: cued.studentId, cue, beganMonotonicMs });
      return;
    }
    shown.began(name, device.seat.id, at);
    window.shown(cue, beganMonotonicMs);
  }

  return {
    began(device: Device, { session, cue, at }: Extract<FromSeat, { kind: "began" }>): void {
      const name = now.nameFor(device, cue);
      const due = shown.due(name);
      const id = now.sessionId();
      if (due === null || id === null || nameOnLine(id) !== session) return;
      if (Math.abs(at - due / clock.speed) > beganWithinMs) return;
      try {
        noteShown(device, name, cue, at);
      } catch (error) {
        // A full disk: without the word the cue counts as not shown, and an answer says that it was.
        report(error);
      }
    },
  };
}
