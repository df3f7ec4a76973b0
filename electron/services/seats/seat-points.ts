import type { Session } from "../../../shared/api/sessions.ts";
import { localDay } from "../../../shared/calendar/local-day.ts";
import type { Store } from "../../store/store.ts";
import type { DesktopClock } from "../base/clock.ts";

/** Each student's points for the counter on their own device; null where nothing earns. */
export function seatPoints(
  { ledger, settings }: Store,
  clock: Pick<DesktopClock, "wallMs" | "offsetMinutes">,
) {
  return {
    of(session: Session | null): ReadonlyMap<string, number> | null {
      if (session === null || session.plan.earning.kind === "none") return null;
      if (!settings.get().points) return null;
      const day = localDay(clock.wallMs(), clock.offsetMinutes());
      const purses = ledger.purses(session.groupId, day);
      return new Map(purses.map(({ studentId, balance }) => [studentId, balance]));
    },
  };
}
export type SeatPoints = ReturnType<typeof seatPoints>;
