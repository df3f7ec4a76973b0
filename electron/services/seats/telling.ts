import type { DesktopClock } from "../base/clock.ts";
import { type Device, keptMarks, tellState } from "./device.ts";
import type { RoomNow } from "./room-now.ts";
import type { SeatPoints } from "./seat-points.ts";
import { nameOnLine, standingOf } from "./session-for-seats.ts";

/** Devices are told of changes this soon, in ms of real time: answers come in many at once. */
const tellAfterMs = 40;

interface SeatTellingOptions {
  readonly clock: Pick<DesktopClock, "after" | "speed">;
  readonly points: SeatPoints;
  /** The adult's phone, which is told at the same moments. */
  readonly pocket: { isJoined(): boolean; tell(): void };
  readonly devices: ReadonlyMap<string, Device>;
  readonly now: RoomNow;
  readonly isGone: () => boolean;
}

/** Tells devices where they stand, and which of their answers are kept. */
export function seatTelling({ clock, points, pocket, devices, now, isGone }: SeatTellingOptions) {
  let telling = false;

  const balancesNow = () => points.of(now.present()?.session ?? null);

  function tellStanding(device: Device, balances = balancesNow()): void {
    const present = now.present();
    const { student } = device;
    const came = device.cameAfter !== null && device.cameAfter === present?.session.id;
    const is = came
      ? "idle"
      : standingOf(present?.session ?? null, present?.state ?? null, student);
    const own = student === null ? undefined : balances?.get(student.id);
    const session =
      is === "untied" || is === "idle" || present === null ? null : present.session.id;
    tellState(device, {
      is,
      session: session === null ? null : nameOnLine(session),
      ...(own === undefined ? {} : { points: own }),
    });
  }

  function tellAllStandings(): void {
    const balances = balancesNow();
    for (const device of devices.values()) tellStanding(device, balances);
    pocket.tell();
  }

  return {
    tellStanding,

    tellKept(device: Device): void {
      const cued = now.cuedBy(device.student);
      if (cued === null) return;
      device.line.tell({
        kind: "kept",
        session: nameOnLine(cued.session.id),
        marks: keptMarks(cued.state, cued.studentId),
      });
    },

    /** Tells all standings soon, once for whatever happens until then. */
    tellSoon(): void {
      if (telling || (devices.size === 0 && !pocket.isJoined())) return;
      telling = true;
      clock.after(tellAfterMs * clock.speed, () => {
        telling = false;
        if (!isGone()) tellAllStandings();
      });
    },
  };
}
export type SeatTelling = ReturnType<typeof seatTelling>;
