import type { FromSeat } from "../../../shared/seats/message.ts";
import type { Joined, SeatLine, SeatWord } from "../../seats/room.ts";
import type { SeatRow } from "../../store/seats/seats.ts";
import type { DesktopClock } from "../base/clock.ts";
import type { CalledCues } from "./called-cues.ts";
import { type Device, tellSeat } from "./device.ts";
import type { RoomNow } from "./room-now.ts";
import type { SeatAnswers } from "./seat-answers.ts";
import type { SeatTelling } from "./telling.ts";

interface SeatJoiningOptions {
  readonly clock: Pick<DesktopClock, "monotonicMs" | "speed">;
  readonly devices: Map<string, Device>;
  readonly now: RoomNow;
  readonly telling: Pick<SeatTelling, "tellStanding" | "tellKept">;
  readonly cues: Pick<CalledCues, "tellNext">;
  readonly answers: Pick<SeatAnswers, "answer">;
  readonly began: (device: Device, word: Extract<FromSeat, { kind: "began" }>) => void;
  /** Somebody came, went or fell asleep. */
  readonly changed: () => void;
}

/** Devices that join as a seat, speak and leave; a seat has one device, the one that joined last. */
export function seatJoining(options: SeatJoiningOptions) {
  const { clock, devices, now, telling, cues, answers, began, changed } = options;

  function hear(device: Device, word: SeatWord): boolean {
    device.heardMonotonicMs = clock.monotonicMs();
    if (device.asleep) {
      device.asleep = false;
      changed();
    }
    switch (word.kind) {
      case "alive":
        return true;
      case "clock":
        device.line.tell({ kind: "clock", t: word.t, at: clock.monotonicMs() / clock.speed });
        return true;
      case "ready":
        device.carriers = word.carriers;
        changed();
        return true;
      case "began":
        began(device, word);
        return true;
      case "mark":
      case "away":
        answers.answer(device, word);
        return true;
      case "give":
      case "take":
        return false;
    }
  }

  return {
    joinSeat(seat: SeatRow, line: SeatLine): Joined {
      devices.get(seat.id)?.line.close("elsewhere");
      const heardMonotonicMs = clock.monotonicMs();
      const present = now.present();
      const isNew = !now.joinedHere(seat.id) && present?.state.status === "ended";
      const device: Device = {
        line,
        seat,
        student: now.studentInUse(seat),
        carriers: ["sign"],
        heardMonotonicMs,
        asleep: false,
        cameAfter: isNew ? present.session.id : null,
        told: "",
      };
      devices.set(seat.id, device);
      now.noteJoined(seat.id);
      tellSeat(device);
      telling.tellStanding(device);
      telling.tellKept(device);
      cues.tellNext(device);
      changed();
      return {
        hear: (word) => hear(device, word),
        gone() {
          if (devices.get(seat.id) !== device) return;
          devices.delete(seat.id);
          changed();
        },
      };
    },

    free(seatId: string): void {
      now.noteFreed(seatId);
      const device = devices.get(seatId);
      if (device === undefined) return;
      device.line.tell({ kind: "freed" });
      device.line.close("closed");
    },
  };
}
