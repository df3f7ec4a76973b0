import type { Topic } from "../../shared/api/app.ts";
import type { Changes } from "../services/base/changes.ts";
import type { DesktopClock } from "../services/base/clock.ts";
import type { Handlers } from "../services/base/handlers.ts";
import type { Conductor } from "../services/live/conductor.ts";
import { type SeatsHosting, type SeatsOpening, seatsOpening } from "../services/seats/opening.ts";
import { seatCodes } from "../services/seats/seat-codes.ts";
import { seatMarks } from "../services/seats/seat-marks.ts";
import { seatRoom } from "../services/seats/seat-room.ts";
import { seatHandlers } from "../services/seats.ts";
import type { Store } from "../store/store.ts";

export interface SeatsDeskOptions {
  readonly store: Store;
  readonly running: Conductor;
  readonly clock: DesktopClock;
  readonly changes: Changes;
  readonly points: Handlers["points"];
  readonly hosting: SeatsHosting;
  /** What is held in memory may be ahead of the disk: it is read anew. */
  readonly recover: () => void;
  readonly report: (error: unknown) => void;
}

/** What seats depend on beside the session. */
const heeded: readonly Topic[] = ["settings", "groups", "students", "points"];

/** Everything behind students' own devices, put together for one open data folder. */
export function seatsDesk(options: SeatsDeskOptions): {
  readonly handlers: Handlers["seats"];
  readonly opening: SeatsOpening;
  close(): Promise<void>;
} {
  const { store, running, clock, changes, points, hosting, recover, report } = options;
  const codes = seatCodes(store.seats);
  const leaving = new AbortController();
  const caller = { clientId: "pocket", signal: leaving.signal };
  const desk = seatRoom({
    store,
    running,
    clock,
    changes,
    codes,
    marks: seatMarks(store, running, clock, recover),
    givePoints: {
      // The adult on the way says how much, and not why.
      async give(sessionId, studentId, amount, press) {
        await points.give({ sessionId, studentId, amount, why: "other", press }, caller);
      },
      async take(sessionId, studentId, press) {
        await points.take({ sessionId, studentId, amount: 1, why: "other", press }, caller);
      },
    },
    mayName: () => hosting.certificateFile !== null && store.settings.get().pocketNames,
    report,
  });
  const opening = seatsOpening(store, running, desk, clock, changes, hosting, report);

  async function follow(): Promise<void> {
    for await (const { topics } of changes.subscribe(null, leaving.signal)) {
      if (!topics.some((topic) => heeded.includes(topic))) continue;
      if (opening.isOpen() && !store.settings.get().seats) await opening.stop();
      if (opening.isOpen()) desk.lookAgain();
    }
  }
  follow().catch(report);
  opening.openAgain();

  return {
    handlers: seatHandlers(store, desk, opening, codes, clock),
    opening,
    async close() {
      leaving.abort();
      await opening.stop();
      desk.leave();
    },
  };
}
