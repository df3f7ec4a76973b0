import type { DamagedSession } from "../../shared/api/care.ts";
import type { Store } from "../store/store.ts";
import type { DailyBackups } from "./backups.ts";
import type { Changes } from "./base/changes.ts";
import type { DesktopClock } from "./base/clock.ts";
import type { Handlers } from "./base/handlers.ts";
import { Missing } from "./base/refusal.ts";
import type { Conductor } from "./live/conductor.ts";
import { passOver } from "./live/log-door.ts";
import type { Settling } from "./points/settling.ts";

interface Keepers {
  readonly backups: DailyBackups;
  readonly running: Conductor;
  readonly settled: Settling;
}

/** How the data is, and the way out where part of it is damaged. */
export function careHandlers(
  store: Store,
  { backups, running, settled }: Keepers,
  changes: Changes,
  clock: Pick<DesktopClock, "wallMs" | "offsetMinutes">,
): Handlers["care"] {
  function placed(sessionId: string, entries: number): DamagedSession[] {
    const place = store.sessions.placeOf(sessionId);
    return place === null ? [] : [{ sessionId, ...place, entries }];
  }

  return {
    state: () => ({
      backup: backups.care(),
      readingOnly: store.readingOnly,
      openToOthers: store.isOpenToOthers,
      damaged: [...store.damage.all()].flatMap(([id, entries]) => placed(id, entries)),
      passedOver: store.sessions.withPassedOver().flatMap(({ id, entries }) => placed(id, entries)),
    }),

    passOver({ sessionId }) {
      if (store.sessions.get(sessionId) === null) throw new Missing("session");
      const entries = passOver(store.log, sessionId, clock);
      store.damage.mended(sessionId);
      settled.catchUp(sessionId);
      running.refresh();
      // It may have been open when the app stopped.
      running.recover();
      changes.publish("sessions", "records", "care");
      return { entries };
    },
  };
}
