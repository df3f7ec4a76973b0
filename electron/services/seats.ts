import type { Seat, SeatsState } from "../../shared/api/seats.ts";
import type { SeatRow } from "../store/seats/seats.ts";
import type { Store } from "../store/store.ts";
import type { DesktopClock } from "./base/clock.ts";
import type { Handlers } from "./base/handlers.ts";
import { knownGroup, studentOf } from "./base/known.ts";
import { addSeat, knownSeat } from "./seats/add-seat.ts";
import type { SeatsOpening } from "./seats/opening.ts";
import type { SeatCodes } from "./seats/seat-codes.ts";
import type { SeatRoomDesk } from "./seats/seat-room.ts";
import { seatSlips } from "./seats/seat-slips.ts";

/** Seats as the teacher opens, ties and frees them. */
export function seatHandlers(
  store: Store,
  desk: SeatRoomDesk,
  opening: SeatsOpening,
  codes: SeatCodes,
  clock: Pick<DesktopClock, "wallMs">,
): Handlers["seats"] {
  const { seats } = store;

  function seatOf({ code, printedMs: _printed, ...facts }: SeatRow): Seat {
    const { joined, asleep, carriers, missed } = desk.standing(facts.id);
    return {
      ...facts,
      hasSlip: code !== null,
      joined,
      asleep,
      carriers: [...carriers],
      missed: [...missed],
    };
  }

  function movedFrom(): string | null {
    const printed = seats.note("printedAddress");
    const now = opening.addresses();
    // Without any address now the slips are not what is wrong.
    return printed === null || now.length === 0 || now.includes(printed) ? null : printed;
  }

  return {
    state({ groupId }): SeatsState {
      knownGroup(store, groupId);
      return {
        isOpen: opening.isOpen(),
        closedBecause: opening.closedBecause(),
        until: opening.until(),
        addresses: opening.addresses().slice(0, 10),
        isSecure: opening.isSecure(),
        certificateProblem: opening.certificateProblem(),
        movedFrom: movedFrom(),
        pocketCode: opening.isOpen() ? desk.pocketCode() : null,
        joiningPaused: desk.isJoiningPaused(),
        seats: seats.list(groupId).map(seatOf),
      };
    },

    async open() {
      await opening.open();
      return {};
    },

    async close() {
      await opening.close();
      return {};
    },

    add({ groupId }) {
      knownGroup(store, groupId);
      const seat = seatOf(addSeat(store, clock, groupId, null));
      desk.lookAgain();
      return seat;
    },

    ...seatSlips(store, desk, opening, codes, clock),

    tie({ seatId, studentId }) {
      const seat = knownSeat(store, seatId);
      if (studentId !== null) {
        studentOf(store, seat.groupId, studentId);
      }
      seats.tie(seatId, studentId);
      desk.lookAgain();
      return {};
    },

    dress({ seatId, language, look }) {
      knownSeat(store, seatId);
      seats.dress(seatId, { language, look });
      desk.lookAgain();
      return {};
    },

    free({ seatId }) {
      knownSeat(store, seatId);
      desk.free(seatId);
      return {};
    },

    remove({ seatId }) {
      knownSeat(store, seatId);
      seats.remove(seatId);
      desk.lookAgain();
      return {};
    },
  };
}
