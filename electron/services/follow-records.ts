import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import { momentOf, todayOf, type WallClock } from "./base/wall-clock.ts";
import { contractMoney } from "./points/contract-days.ts";
import { teamDays } from "./team-days.ts";

/**
 * What contracts and teams pay follows the records; nothing that is said of a session waits for it.
 *
 * @param report is told what went wrong: the records stand, and the next change pays
 */
export function followRecords(
  store: Store,
  clock: WallClock,
  changes: Changes,
  report: (error: unknown) => void,
) {
  const money = contractMoney(store);

  /** What contracts pay, over all days. */
  function contracts(): void {
    if (store.readingOnly !== null || store.log.openSessionId() !== null) return;
    try {
      if (money.catchUp(todayOf(clock), momentOf(clock)) > 0) changes.publish("points", "home");
    } catch (error) {
      report(error);
    }
  }

  /** A day that has given a team's points moves with what is corrected of it. */
  function teams(sessionId: string): void {
    if (store.log.openSessionId() === sessionId) return;
    try {
      if (teamDays(store).follow(sessionId, todayOf(clock), momentOf(clock))) {
        changes.publish("points", "teams");
      }
    } catch (error) {
      report(error);
    }
  }

  return {
    contracts,

    /** After the records of a session have changed. */
    session(sessionId: string): void {
      teams(sessionId);
      contracts();
    },
  };
}
