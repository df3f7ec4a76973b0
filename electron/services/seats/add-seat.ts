import { mostSeats } from "../../../shared/api/seats.ts";
import { newId } from "../../store/new-id.ts";
import type { SeatRow } from "../../store/seats/seats.ts";
import type { Store } from "../../store/store.ts";
import type { DesktopClock } from "../base/clock.ts";
import { Missing, Refusal } from "../base/refusal.ts";

/** @throws Missing */
export function knownSeat({ seats }: Pick<Store, "seats">, seatId: string): SeatRow {
  const seat = seats.get(seatId);
  if (seat === null) throw new Missing("seat");
  return seat;
}

/**
 * A seat more in a group, in the app's own language; it belongs to nobody yet with null.
 *
 * @throws Refusal where there are as many as a group may have
 */
export function addSeat(
  store: Pick<Store, "seats" | "settings">,
  clock: Pick<DesktopClock, "wallMs">,
  groupId: string,
  studentId: string | null,
): SeatRow {
  const { seats } = store;
  if (seats.list(groupId).length >= mostSeats) {
    throw new Refusal("seats-too-many", `A group has at most ${mostSeats} seats.`, {
      most: mostSeats,
    });
  }
  const id = newId(clock.wallMs());
  seats.add({ id, groupId, studentId, language: store.settings.get().language, look: "words" });
  return knownSeat(store, id);
}
