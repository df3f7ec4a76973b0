import { mostSeats, type Seat, type SeatsState, type Slip } from "../../shared/api/seats.ts";
import { newId } from "../store/new-id.ts";
import type { SeatRow } from "../store/seats/seats.ts";
import type { Store } from "../store/store.ts";
import type { DesktopClock } from "./base/clock.ts";
import type { Handlers } from "./base/handlers.ts";
import { Missing, Refusal } from "./base/refusal.ts";
import type { SeatsOpening } from "./seats/opening.ts";
import type { SeatCodes } from "./seats/seat-codes.ts";
import type { SeatRoomDesk } from "./seats/seat-room.ts";

/** Seats as the teacher opens, ties and frees them. */
export function seatHandlers(
  store: Store,
  desk: SeatRoomDesk,
  opening: SeatsOpening,
  codes: SeatCodes,
  clock: Pick<DesktopClock, "wallMs">,
): Handlers["seats"] {
  const { seats } = store;

  function knownSeat(seatId: string): SeatRow {
    const seat = seats.get(seatId);
    if (seat === null) throw new Missing("seat");
    return seat;
  }

  function knownGroup(groupId: string): void {
    if (store.groups.get(groupId) === null) throw new Missing("group");
  }

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

  const ownDress = () => ({ language: store.settings.get().language, look: "words" }) as const;

  function addSeat(groupId: string, studentId: string | null): SeatRow {
    if (seats.list(groupId).length >= mostSeats) {
      throw new Refusal("seats-too-many", `A group has at most ${mostSeats} seats.`, {
        most: mostSeats,
      });
    }
    const id = newId(clock.wallMs());
    seats.add({ id, groupId, studentId, ...ownDress() });
    return knownSeat(id);
  }

  /** The address that slips carry: the likeliest one now. */
  const addressNow = (): string | null => opening.addresses()[0] ?? null;

  function movedFrom(): string | null {
    const printed = seats.note("printedAddress");
    const now = opening.addresses();
    // Without any address now the slips are not what is wrong.
    return printed === null || now.length === 0 || now.includes(printed) ? null : printed;
  }

  return {
    state({ groupId }): SeatsState {
      knownGroup(groupId);
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
      knownGroup(groupId);
      const seat = seatOf(addSeat(groupId, null));
      desk.lookAgain();
      return seat;
    },

    async makeSlips({ groupId, seatIds }) {
      knownGroup(groupId);
      const seated = new Set(seats.list(groupId).map(({ studentId }) => studentId));
      if (seatIds === null) {
        const out = store.agreed.saidNo(groupId, "cued");
        for (const { id } of store.students.list(groupId, false)) {
          if (!seated.has(id) && !out.has(id)) addSeat(groupId, id);
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

    tie({ seatId, studentId }) {
      const seat = knownSeat(seatId);
      if (studentId !== null) {
        const student = store.students.get(studentId);
        if (student === null) throw new Missing("student");
        if (student.groupId !== seat.groupId) {
          throw new Refusal("student-not-in-group", "This student is not in the seat's group.", {
            student: student.name,
          });
        }
      }
      seats.tie(seatId, studentId);
      desk.lookAgain();
      return {};
    },

    dress({ seatId, language, look }) {
      knownSeat(seatId);
      seats.dress(seatId, { language, look });
      desk.lookAgain();
      return {};
    },

    free({ seatId }) {
      knownSeat(seatId);
      desk.free(seatId);
      return {};
    },

    voidSlip({ seatId }) {
      knownSeat(seatId);
      seats.saveCode(seatId, null, clock.wallMs());
      desk.lookAgain();
      return {};
    },

    remove({ seatId }) {
      knownSeat(seatId);
      seats.remove(seatId);
      desk.lookAgain();
      return {};
    },
  };
}
