import type { CueCall } from "../../../shared/api/sessions.ts";
import type { DesktopClock } from "../base/clock.ts";
import type { OwnCueCall } from "../live/conductor-desk.ts";
import type { Device } from "./device.ts";
import type { RoomNow } from "./room-now.ts";
import { cuesStudents, nameOnLine } from "./session-for-seats.ts";
import { cueName, type ShownCues } from "./shown-cues.ts";

/** A cue that a device has not shown so long after its moment was not shown there, in ms of real time. */
const showWithinMs = 3_000;

/** A cue that is called and still to come. */
interface CueAhead {
  readonly cue: number;
  readonly dueMonotonicMs: number;
}

interface CalledCuesOptions {
  readonly clock: Pick<DesktopClock, "after" | "monotonicMs" | "speed">;
  readonly devices: ReadonlyMap<string, Device>;
  readonly now: RoomNow;
  readonly shown: ShownCues;
  /** The time in which a cue of the class can be shown is over. */
  readonly passed: (sessionId: string, cue: number) => void;
}

/** Tells each device of its own next cue a moment ahead, and of one that is taken back. */
export function calledCues({ clock, devices, now, shown, passed }: CalledCuesOptions) {
  /** By student, or the class's (null): for a device that joins just now. */
  const ahead = new Map<string | null, CueAhead>();

  function tellDue(device: Device, { cue, dueMonotonicMs }: CueAhead): void {
    const cued = now.cuedBy(device.student);
    if (cued === null) return;
    shown.told(now.nameFor(device, cue), device.seat.id);
    const session = nameOnLine(cued.session.id);
    device.line.tell({ kind: "due", session, cue, atServer: dueMonotonicMs / clock.speed });
  }

  function call(owner: string | null, next: CueAhead): void {
    shown.call(cueName(next.cue, owner), next.dueMonotonicMs);
    ahead.set(owner, next);
    for (const device of devices.values()) {
      if (owner === null || device.student?.id === owner) tellDue(device, next);
    }
  }

  function takeBack(id: string, cue: number, owner: string | null): void {
    const told = new Set(shown.cancel(cueName(cue, owner)));
    forget(owner, cue);
    for (const [seatId, { line }] of devices) {
      if (told.has(seatId)) line.tell({ kind: "cancelled", session: nameOnLine(id), cue });
    }
  }

  /** A cue is no longer ahead: a device that joins now does not hear of it. */
  function forget(owner: string | null, cue: number): void {
    if (ahead.get(owner)?.cue === cue) ahead.delete(owner);
  }

  return {
    forget,

    called(id: string, told: Extract<CueCall, { readonly cue: number }>): void {
      if (id !== now.sessionId()) return;
      const { cue } = told;
      if (told.kind === "cancelled") {
        takeBack(id, cue, null);
        return;
      }
      const present = now.present();
      if (present === null || !cuesStudents(present.session)) return;
      const { dueMonotonicMs } = told;
      call(null, { cue, dueMonotonicMs });
      const left = dueMonotonicMs - clock.monotonicMs() + showWithinMs * clock.speed;
      clock.after(Math.max(0, left), () => {
        forget(null, cue);
        passed(id, cue);
      });
    },

    /** A student's own cue: their device hears of it, and nobody else. */
    calledOwn(id: string, told: OwnCueCall): void {
      if (id !== now.sessionId()) return;
      const { studentId, cue } = told;
      if (told.kind === "cancelled") takeBack(id, cue, studentId);
      else call(studentId, { cue, dueMonotonicMs: told.dueMonotonicMs });
    },

    /** Tells a device that has just joined of the cue that is still to come for it. */
    tellNext(device: Device): void {
      const next = ahead.get(now.cueOwner(device));
      // One whose moment has passed asked somebody else: what was a minute ago is no momentary record.
      if (next !== undefined && next.dueMonotonicMs > clock.monotonicMs()) tellDue(device, next);
    },

    /** Another session begins. */
    clear(): void {
      ahead.clear();
    },
  };
}
export type CalledCues = ReturnType<typeof calledCues>;
