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
import { todayOf, type WallClock } from "./base/wall-clock.ts";

/** The settings and the deal that a group has; a group without teams deals none. */
export function termOf(store: Store, groupId: string) {
  knownGroup(store, groupId);
  const term = store.teams.term(groupId);
  if (term === null) throw new Missing("team");
  return term;
}

/** Teams as they are dealt for a term, and two who change places. */
export function teamDeals(
  store: Store,
  changes: Changes,
  clock: WallClock,
): Pick<Handlers["teams"], "deal" | "swap"> {
  const { teams } = store;
  const today = () => todayOf(clock);

  /** Who is in teams at all: not who takes no part. */
  function studentsOf(groupId: string): string[] {
    const out = store.agreed.saidNo(groupId, "cued");
    return store.students.list(groupId, false).flatMap(({ id }) => (out.has(id) ? [] : id));
  }

  return {
    deal({ groupId, deals, rounds }) {
      store.transaction(() => {
        const term = termOf(store, groupId);
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

    swap({ roundId, oneId, otherId, shown }) {
      store.transaction(() => {
        const round = teams.round(roundId);
        if (round === null) throw new Missing("round");
        if (!areSame(round.teams, shown)) {
          throw new Refusal("teams-swap-moved", "Another window changed these teams meanwhile.");
        }
        const swapped = exchanged(round.teams, oneId, otherId);
        if (!keepsWishes(swapped, teams.wishes(round.groupId))) {
          throw new Refusal("teams-swap-unfit", "This swap would break what has to hold.");
        }
        teams.savePlaces(round, swapped, today());
      });
      changes.publish("teams");
      return {};
    },
  };
}

/** Whether the same students are together in the same places, in whatever order. */
function areSame(one: TeamRound["teams"], other: TeamRound["teams"]): boolean {
  const sorted = (teams: TeamRound["teams"]) => teams.map((team) => team.toSorted());
  return JSON.stringify(sorted(one)) === JSON.stringify(sorted(other));
}

/** The teams after two students changed places. Throws Missing where one of them is in none. */
function exchanged(teams: TeamRound["teams"], oneId: string, otherId: string): string[][] {
  const placed = new Set(teams.flat());
  if (!placed.has(oneId) || !placed.has(otherId)) throw new Missing("student");
  return teams.map((team) =>
    team.map((id) => (id === oneId ? otherId : id === otherId ? oneId : id)),
  );
}
