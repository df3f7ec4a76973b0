import type { Store } from "../../store/store.ts";
import { type Device, tellSeat } from "./device.ts";
import type { RoomNow } from "./room-now.ts";
import type { SeatTelling } from "./telling.ts";

interface LookAgainOptions {
  readonly store: Pick<Store, "seats">;
  readonly devices: ReadonlyMap<string, Device>;
  readonly now: Pick<RoomNow, "studentInUse">;
  readonly telling: Pick<SeatTelling, "tellStanding" | "tellKept">;
  readonly free: (seatId: string) => void;
}

/** Something about seats or students changed: who is gone is freed, the others are told. */
export function lookAgainAt({ store, devices, now, telling, free }: LookAgainOptions): void {
  for (const [id, device] of devices) {
    const seat = store.seats.get(id);
    if (seat === null || seat.code === null) {
      free(id);
      continue;
    }
    const before = device.seat;
    device.seat = seat;
    device.student = now.studentInUse(seat);
    if (before.language !== seat.language || before.look !== seat.look) tellSeat(device);
    if (before.studentId !== seat.studentId) {
      device.told = "";
      telling.tellStanding(device);
      telling.tellKept(device);
    } else telling.tellStanding(device);
  }
}
