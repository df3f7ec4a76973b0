import { roundOn } from "../../shared/teams/kept-rounds.ts";
import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import type { Handlers } from "./base/handlers.ts";
import { knownGroup } from "./base/known.ts";
import { Missing, Refusal } from "./base/refusal.ts";
import { refuseIfSavedElsewhere } from "./base/saved-elsewhere.ts";
import { momentOf, todayOf, type WallClock } from "./base/wall-clock.ts";
import { freshSeed } from "./live/session-seed.ts";
import { earnsPoints } from "./points/earns-points.ts";
import { teamDays } from "./team-days.ts";
import { teamDeals, termOf } from "./team-deals.ts";
import { absentOn } from "./todays-roll.ts";

/** Teams that are dealt anew each week, and what they reach together. */
export function teamsHandlers(store: Store, changes: Changes, clock: WallClock): Handlers["teams"] {
  const { teams } = store;
  const days = teamDays(store);
  const today = () => todayOf(clock);

  return {
    state({ groupId }) {
      knownGroup(store, groupId);
      const term = teams.term(groupId);
      const day = today();
      return {
        today: day,
        settings: term?.settings ?? null,
        seed: term?.seed ?? "",
        deals: term?.deals ?? 0,
        names: teams.names(groupId),
        wishes: teams.wishes(groupId),
        rounds: teams.rounds(groupId),
        absentIds: [...absentOn(store, groupId, day)],
        outIds: [...store.agreed.saidNo(groupId, "cued")],
        ...(term === null
          ? { teams: [], unmet: [], isUneven: false }
          : days.teamsOn(groupId, term.settings, day, day)),
        earns: earnsPoints(store, groupId),
        arePointsGiven: term === null ? false : days.isGiven(groupId, term.settings, day, day),
        earlier: term === null ? null : days.lastBefore(groupId, term.settings, day),
      };
    },

    saveSettings({ groupId, settings, before }) {
      knownGroup(store, groupId);
      const kept = teams.term(groupId)?.settings ?? null;
      if (before !== undefined) refuseIfSavedElsewhere(before, kept);
      teams.saveSettings(groupId, settings, freshSeed());
      changes.publish("teams");
      return {};
    },

    saveNames({ groupId, names, before }) {
      knownGroup(store, groupId);
      if (before !== undefined) {
        refuseIfSavedElsewhere(withoutBlanks(before), withoutBlanks(teams.names(groupId)));
      }
      store.transaction(() => teams.saveNames(groupId, names));
      changes.publish("teams");
      return {};
    },

    saveWishes({ groupId, wishes, before }) {
      knownGroup(store, groupId);
      if (before !== undefined) refuseIfSavedElsewhere(before, teams.wishes(groupId));
      const known = new Set(store.students.listAll(groupId).map(({ id }) => id));
      for (const id of wishes.flatMap(({ studentIds }) => studentIds)) {
        if (!known.has(id)) throw new Missing("student");
      }
      store.transaction(() => teams.saveWishes(groupId, wishes, clock.wallMs()));
      changes.publish("teams");
      return {};
    },

    ...teamDeals(store, changes, clock),

    givePoints({ groupId, day }) {
      store.transaction(() => {
        const { settings } = termOf(store, groupId);
        if (!earnsPoints(store, groupId)) {
          throw new Refusal("points-off", "This group earns no points.");
        }
        if (day > today() || roundOn(teams.rounds(groupId), day) === null) {
          throw new Missing("round");
        }
        days.give(groupId, settings, day, today(), momentOf(clock));
      });
      changes.publish("points", "teams");
      return {};
    },

    onClassScreen({ sessionId }) {
      const session = store.sessions.get(sessionId);
      if (session === null) throw new Missing("session");
      const term = teams.term(session.groupId);
      if (term === null || !term.settings.isShown) return [];
      if (roundOn(teams.rounds(session.groupId), today()) === null) return [];
      const { teams: shown } = days.teamsOn(session.groupId, term.settings, today(), today());
      return shown.map(({ name, outcome }) => ({ name, outcome }));
    },
  };
}

/** Names without the teams at the end that have none. */
const withoutBlanks = (names: readonly string[]): readonly string[] =>
  names.slice(0, names.findLastIndex((name) => name !== "") + 1);
