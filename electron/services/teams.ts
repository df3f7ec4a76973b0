import { schoolWeek } from "../../shared/calendar/school-days.ts";
import { dealDays } from "../../shared/teams/deal-days.ts";
import type { TeamRound } from "../../shared/teams/kept.ts";
import { fitsNow, roundOn } from "../../shared/teams/kept-rounds.ts";
import { keepsWishes } from "../../shared/teams/wishes.ts";
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
import { absentOn } from "./todays-roll.ts";

/** Teams that are dealt anew each week, and what they reach together. */
export function teamsHandlers(store: Store, changes: Changes, clock: WallClock): Handlers["teams"] {
  const { teams } = store;
  const days = teamDays(store);
  const today = () => todayOf(clock);

  /** The settings and the deal that a group has; a group without teams deals none. */
  function termOf(groupId: string) {
    knownGroup(store, groupId);
    const term = teams.term(groupId);
    if (term === null) throw new Missing("team");
    return term;
  }

  /** Who is in teams at all: not who takes no part. */
  function studentsOf(groupId: string): string[] {
    const out = store.agreed.saidNo(groupId, "cued");
    return store.students.list(groupId, false).flatMap(({ id }) => (out.has(id) ? [] : id));
  }

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

    deal({ groupId, deals, rounds }) {
      store.transaction(() => {
        const term = termOf(groupId);
        if (term.deals !== deals) {
          throw new Refusal("teams-moved", "Another window dealt these teams meanwhile.");
        }
        const students = studentsOf(groupId);
        const wishes = teams.wishes(groupId);
        if (!rounds.every((each) => fitsNow(each, students, term.settings.size, wishes))) {
          throw new Refusal("teams-unfit", "These teams do not fit the class any more.");
        }
        const held = roundOn(teams.rounds(groupId), today());
        const days = dealDays({
          today: today(),
          heldFrom: held?.startsOn ?? null,
          weekday: term.settings.weekday,
          rounds: rounds.length,
          weekdays:
            store.groups.timetable().find((each) => each.groupId === groupId)?.weekdays ??
            schoolWeek,
          daysOff: store.daysOff.list(),
        });
        const kept = rounds.map((each, at) => ({ teams: each, startsOn: days[at] ?? today() }));
        teams.deal(groupId, held?.number ?? 0, kept, clock.wallMs());
      });
      changes.publish("teams");
      return {};
    },

    swap({ roundId, oneId, otherId }) {
      store.transaction(() => {
        const round = teams.round(roundId);
        if (round === null) throw new Missing("round");
        const swapped = exchanged(round.teams, oneId, otherId);
        if (!keepsWishes(swapped, teams.wishes(round.groupId))) {
          throw new Refusal("teams-swap-unfit", "This swap would break what has to hold.");
        }
        teams.savePlaces(roundId, swapped);
      });
      changes.publish("teams");
      return {};
    },

    givePoints({ groupId, day }) {
      store.transaction(() => {
        const { settings } = termOf(groupId);
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

/** The teams after two students changed places. Throws Missing where one of them is in none. */
function exchanged(teams: TeamRound["teams"], oneId: string, otherId: string): string[][] {
  const placed = new Set(teams.flat());
  if (!placed.has(oneId) || !placed.has(otherId)) throw new Missing("student");
  return teams.map((team) =>
    team.map((id) => (id === oneId ? otherId : id === otherId ? oneId : id)),
  );
}
