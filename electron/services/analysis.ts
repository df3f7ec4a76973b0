import { localDay } from "../../shared/calendar/local-day.ts";
import { phasesOfMoves } from "../../shared/reading/phases-of-moves.ts";
import type { Store } from "../store/store.ts";
import type { DesktopClock } from "./base/clock.ts";
import type { Handlers } from "./base/handlers.ts";
import { knownGroup, knownStudent } from "./base/known.ts";

/** What the page's statistics start from: a group's counts, all at once. */
export function analysisHandlers(
  store: Store,
  clock: Pick<DesktopClock, "offsetMinutes">,
): Handlers["analysis"] {
  return {
    counts({ groupId }) {
      knownGroup(store, groupId);
      return store.counts.ofGroup(groupId);
    },

    studentCounts({ studentId }) {
      const { groupId } = knownStudent(store, studentId);
      const stays = store.students.stays(studentId);
      const all = [...stays, { groupId, fromMs: stays.at(-1)?.untilMs ?? 0 }];
      const moves = all.map(({ groupId: inGroup, fromMs }, at) => ({
        phases: store.phases.list(inGroup),
        fromDay: at === 0 ? null : localDay(fromMs, clock.offsetMinutes()),
      }));
      return {
        logged: store.counts.ofStudent(studentId),
        phases: phasesOfMoves(moves, studentId),
      };
    },
  };
}
