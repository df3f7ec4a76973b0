import type { UndeliveredReason } from "../../../shared/session/event.ts";
import type { Store } from "../../store/store.ts";
import type { Device } from "./device.ts";
import type { RoomNow } from "./room-now.ts";
import type { SeatMarks } from "./seat-marks.ts";
import { cueName, type ShownCues } from "./shown-cues.ts";

interface MissedCuesOptions {
  readonly store: Pick<Store, "seats" | "students">;
  readonly marks: Pick<SeatMarks, "keep">;
  readonly devices: ReadonlyMap<string, Device>;
  readonly now: RoomNow;
  readonly shown: ShownCues;
  /** Somebody's standing is another: the page is told. */
  readonly changed: () => void;
  /** Does something once what caused it is on the disk. */
  readonly after: (work: () => void) => void;
  readonly isGone: () => boolean;
}

/** Which seats did not show a cue: the teacher sees them, and the log says whom it did not reach. */
export function missedCues(options: MissedCuesOptions) {
  const { store, marks, devices, now, shown, changed, after, isGone } = options;

  /** The log says whom a cue did not reach, so that no mark is missed there. */
  function leaveUnreached(id: string, studentId: string, cue: number, seatId: string): void {
    const device = devices.get(seatId);
    const due = shown.due(cueName(cue, null));
    const reason = device === undefined ? "seat-absent" : whySilent(device, due);
    marks.keep(id, { kind: "leave-undelivered", studentId, cue, reason }, () => undefined);
  }

  return {
    /** Which tied seats did not show a cue that reached the class. */
    noteMissed(id: string, cue: number): void {
      if (isGone()) return;
      const present = now.present();
      const name = cueName(cue, null);
      if (present === null || id !== now.sessionId() || shown.due(name) === null) return;
      if (present.state.cues.get(cue)?.standing !== "delivered") return;
      const { groupId } = present.session;
      const there = new Map(
        store.students.list(groupId, false).map((student) => [student.id, student]),
      );
      for (const { id: seatId, studentId } of store.seats.list(groupId)) {
        const cued = now.cuedBy(there.get(studentId ?? "") ?? null);
        if (cued === null || shown.hasShown(name, seatId)) continue;
        shown.miss(cue, seatId);
        if (now.joinedHere(seatId)) leaveUnreached(cued.session.id, cued.studentId, cue, seatId);
      }
      changed();
    },

    /** Why no device said that it showed a student's own cue, for the log; the teacher sees which seat it was. */
    whyUnshown(studentId: string, cue: number): UndeliveredReason {
      const device = [...devices.values()].find(({ student }) => student?.id === studentId);
      if (device === undefined) return "seat-absent";
      shown.miss(cue, device.seat.id);
      after(changed);
      return whySilent(device, shown.due(cueName(cue, studentId)));
    },
  };
}
export type MissedCues = ReturnType<typeof missedCues>;

const whySilent = ({ asleep, heardMonotonicMs }: Device, due: number | null) =>
  asleep || heardMonotonicMs < (due ?? 0) ? "seat-asleep" : "no-report";
