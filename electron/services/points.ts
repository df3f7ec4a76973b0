import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import type { Handlers } from "./base/handlers.ts";
import { knownGroup, knownStudent } from "./base/known.ts";
import { Missing } from "./base/refusal.ts";
import type { WallClock } from "./base/wall-clock.ts";
import type { Conductor } from "./live/conductor.ts";
import { classPoints } from "./points/class-points.ts";
import { exchanges } from "./points/exchange.ts";
import { ledgerLines } from "./points/ledger-lines.ts";
import { pointsState } from "./points/points-state.ts";
import { sessionPoints } from "./session-points.ts";

/** Entries of one answer: some 1.5 MB of the longest message. */
const entriesInPiece = 5_000;

/** Points: what was earned, given, taken and exchanged. */
export function pointsHandlers(
  store: Store,
  conductor: Conductor,
  changes: Changes,
  clock: WallClock,
): Handlers["points"] {
  const { ledger, privileges } = store;
  const exchange = exchanges(store, clock);

  return {
    state: ({ groupId }) => pointsState(store, clock, groupId),

    ...sessionPoints(store, conductor, clock),

    buy(purchase) {
      exchange.buy(purchase);
      changes.publish("points");
      return {};
    },

    undoBuy(purchase) {
      exchange.undo(purchase);
      changes.publish("points");
      return {};
    },

    addPrivilege(facts) {
      knownGroup(store, facts.groupId);
      const made = privileges.create(facts, clock.wallMs());
      changes.publish("points");
      return made;
    },

    savePrivilege(privilege) {
      if (privileges.get(privilege.id) === null) throw new Missing("privilege");
      privileges.update(privilege);
      changes.publish("points");
      return privilege;
    },

    archivePrivilege({ id }) {
      if (privileges.get(id) === null) throw new Missing("privilege");
      privileges.archive(id, clock.wallMs());
      changes.publish("points");
      return {};
    },

    ledger({ groupId, after }) {
      knownGroup(store, groupId);
      const entries = ledger.page(groupId, after, entriesInPiece);
      const last = entries.at(-1);
      const isWhole = last === undefined || entries.length < entriesInPiece;
      return { lines: ledgerLines(entries, privileges), next: isWhole ? null : last.number };
    },

    saveOwnGoal({ studentId, share }) {
      knownStudent(store, studentId);
      store.wishes.saveOwnGoal(studentId, share);
      changes.publish("points");
      return {};
    },

    endEarning({ groupId, until }) {
      knownGroup(store, groupId);
      store.transaction(() => {
        for (const { id, name, settings } of store.plans.list(groupId)) {
          if (settings.earning.kind === "none") continue;
          store.plans.update({ id, name, settings: { ...settings, earning: { kind: "none" } } });
        }
        store.wishes.saveSpendUntil(groupId, until);
      });
      changes.publish("plans", "points", "program");
      return {};
    },

    ...classPoints(store, changes, clock),

    savePeriods({ groupId, periods }) {
      knownGroup(store, groupId);
      privileges.savePeriods(groupId, periods, clock.wallMs());
      changes.publish("points", "program");
      return {};
    },
  };
}
