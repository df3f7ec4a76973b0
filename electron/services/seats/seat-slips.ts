import type { Slip } from "../../../shared/api/seats.ts";
import type { Store } from "../../store/store.ts";
import type { DesktopClock } from "../base/clock.ts";
import type { Handlers } from "../base/handlers.ts";
import { knownGroup } from "../base/known.ts";
import { addSeat, knownSeat } from "./add-seat.ts";
import type { SeatsOpening } from "./opening.ts";
import type { SeatCodes } from "./seat-codes.ts";
import type { SeatRoomDesk } from "./seat-room.ts";

/** Slips with codes by which devices join: made, and made void. */
export function seatSlips(
  store: Store,
  desk: SeatRoomDesk,
  opening: SeatsOpening,
  codes: SeatCodes,
  clock: Pick<DesktopClock, "wallMs">,
): Pick<Handlers["seats"], "makeSlips" | "voidSlip"> {
  const { seats } = store;

  /** The address that slips carry: the likeliest one now. */
  const addressNow = (): string | null => opening.addresses()[0] ?? null;

  return {
    async makeSlips({ groupId, seatIds }) {
      knownGroup(store, groupId);
      const seated = new Set(seats.list(groupId).map(({ studentId }) => studentId));
      if (seatIds === null) {
        const out = store.agreed.saidNo(groupId, "cued");
        for (const { id } of store.students.list(groupId, false)) {
          if (!seated.has(id) && !out.has(id)) addSeat(store, clock, groupId, id);
        }
      }
      const wanted = seats
        .list(groupId)
        .filter(({ id }) => seatIds === null || seatIds.includes(id));
      const made = await Promise.all(
        wanted.map(async (seat) => {
          const code = codes.make();
          return { seat, code, hashed: await codes.hash(code) };
        }),
      );
      const address = addressNow() ?? "";
      store.transaction(() => {
        for (const { seat, hashed } of made) seats.saveCode(seat.id, hashed, clock.wallMs());
        if (address !== "") seats.saveNote("printedAddress", address);
      });
      for (const { seat } of made) desk.free(seat.id);
      desk.lookAgain();
      return {
        address,
        slips: made.map(({ seat, code }): Slip => ({ number: seat.number, code })),
      };
    },

    voidSlip({ seatId }) {
      knownSeat(store, seatId);
      seats.saveCode(seatId, null, clock.wallMs());
      desk.lookAgain();
      return {};
    },
  };
}
