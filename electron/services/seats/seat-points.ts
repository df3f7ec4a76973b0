import type { Session } from "../../../shared/api/sessions.ts";
import type { Store } from "../../store/store.ts";
import { todayOf, type WallClock } from "../base/wall-clock.ts";

/**
 * Points for the counter on each student's own device, of those who agreed to earn any; null where nothing
 * earns.
 */
export function seatPoints(
  { ledger, settings, agreed }: Pick<Store, "ledger" | "settings" | "agreed">,
  clock: WallClock,
) {
  return {
    of(session: Session | null): ReadonlyMap<string, number> | null {
      if (session === null || session.plan.earning.kind === "none") return null;
      if (!settings.get().points) return null;
      const day = todayOf(clock);
      const unpaid = agreed.saidNo(session.groupId, "points");
      const purses = ledger
        .purses(session.groupId, day)
        .filter(({ studentId }) => !unpaid.has(studentId));
      return new Map(purses.map(({ studentId, balance }) => [studentId, balance]));
    },
  };
}
export type SeatPoints = ReturnType<typeof seatPoints>;
