import type { TeamsState } from "../../shared/api/teams.ts";
import { schoolWeek } from "../../shared/calendar/school-days.ts";
import { dealDays } from "../../shared/teams/deal-days.ts";
import type { TeamRound, TeamSettings } from "../../shared/teams/kept.ts";
import { fitsNow, roundOn, roundToShow } from "../../shared/teams/kept-rounds.ts";
import { type MemberMarks, teamOutcome } from "../../shared/teams/team-outcome.ts";
import { teamsOfDay } from "../../shared/teams/teams-of-day.ts";
import { keepsWishes } from "../../shared/teams/wishes.ts";
import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import type { Handlers } from "./base/handlers.ts";
import { knownGroup } from "./base/known.ts";
import { Missing, Refusal } from "./base/refusal.ts";
import { todayOf, type WallClock } from "./base/wall-clock.ts";
import { freshSeed } from "./live/session-seed.ts";
import { settleTogether } from "./points/earned-together.ts";
import { earnsPoints } from "./points/earns-points.ts";
import { absentOn } from "./todays-roll.ts";

type TeamsToday = Pick<TeamsState, "teams" | "unmet" | "isUneven">;

/** Teams that are dealt anew each week, and what they reach together. */
export function teamsHandlers(store: Store, changes: Changes, clock: WallClock): Handlers["teams"] {
  const { teams } = store;
  const today = () => todayOf(clock);

  /** The settings and the deal that a group has; a group without teams deals none. */
  function termOf(groupId: string) {
    knownGroup(store, groupId);
    const term = teams.term(groupId);
    if (term === null) throw new Missing("team");
    return term;
  }

  const studentsOf = (groupId: string): string[] =>
    store.students.list(groupId, false).map(({ id }) => id);

  /** Who is absent on a day, and who does not take part at all: a team is not to be worked out by either. */
  const awayOn = (groupId: string, day: string): ReadonlySet<string> =>
    new Set([...absentOn(store, groupId, day), ...store.agreed.saidNo(groupId, "cued")]);

  /** Today's teams, without whoever is absent; before the first round those to come. */
  function teamsToday(groupId: string, settings: TeamSettings): TeamsToday {
    const day = today();
    const round = roundToShow(teams.rounds(groupId), day);
    if (round === null) return { teams: [], unmet: [], isUneven: false };
    const hasBegun = round.startsOn <= day;
    const absent = awayOn(groupId, day);
    const here = studentsOf(groupId).filter((id) => !absent.has(id));
    const names = teams.names(groupId);
    const marks = marksOn(store, groupId, day);
    const inOrder = (ids: readonly string[]) => here.filter((id) => ids.includes(id));
    const { teams: placed, ...kept } = teamsOfDay(round.teams, here, teams.wishes(groupId));
    const shown = placed.map((studentIds, at) => ({
      team: at + 1,
      name: names[at] ?? "",
      studentIds: inOrder(studentIds),
      outcome:
        settings.goal === null || !hasBegun
          ? null
          : teamOutcome(
              studentIds.map((id) => marks.get(id) ?? noMarks),
              settings.goal,
            ),
    }));
    return { teams: shown, unmet: [...kept.unmet], isUneven: kept.isUneven };
  }

  /** What today's outcomes are worth to each student who is here and was agreed to earn points. */
  function dues(groupId: string, settings: TeamSettings): ReadonlyMap<string, number> {
    const unpaid = store.agreed.saidNo(groupId, "points");
    return new Map(
      teamsToday(groupId, settings).teams.flatMap(({ studentIds, outcome }) =>
        studentIds
          .filter((id) => !unpaid.has(id))
          .map((id) => [id, outcome === "met" ? settings.points : 0]),
      ),
    );
  }

  function arePointsGiven(groupId: string, settings: TeamSettings): boolean {
    const dayId = teams.knownDayId(groupId, today());
    if (dayId === null) return false;
    return [...dues(groupId, settings)].every(
      ([id, due]) => (store.ledger.paidTogether("team", dayId, id)?.due ?? 0) === due,
    );
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
        absentIds: [...awayOn(groupId, day)],
        ...(term === null
          ? { teams: [], unmet: [], isUneven: false }
          : teamsToday(groupId, term.settings)),
        earns: earnsPoints(store, groupId),
        arePointsGiven: term === null ? false : arePointsGiven(groupId, term.settings),
      };
    },

    saveSettings({ groupId, settings }) {
      knownGroup(store, groupId);
      teams.saveSettings(groupId, settings, freshSeed());
      changes.publish("teams");
      return {};
    },

    saveNames({ groupId, names }) {
      knownGroup(store, groupId);
      store.transaction(() => teams.saveNames(groupId, names));
      changes.publish("teams");
      return {};
    },

    saveWishes({ groupId, wishes }) {
      knownGroup(store, groupId);
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

    givePoints({ groupId }) {
      store.transaction(() => {
        const { settings } = termOf(groupId);
        if (!earnsPoints(store, groupId)) {
          throw new Refusal("points-off", "This group earns no points.");
        }
        const [wallMs, offsetMinutes, day] = [clock.wallMs(), clock.offsetMinutes(), today()];
        const sourceKey = teams.dayId(groupId, day, wallMs);
        for (const [studentId, due] of dues(groupId, settings)) {
          const when = { day, wallMs, offsetMinutes };
          settleTogether(store.ledger, { rule: "team", sourceKey, studentId, due, ...when });
        }
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
      return teamsToday(session.groupId, term.settings).teams.map(({ name, outcome }) => ({
        name,
        outcome,
      }));
    },
  };
}

const noMarks: MemberMarks = { on: 0, off: 0 };

/** Each student's own marks of a day's ended seatwork. */
function marksOn(
  { counts }: Pick<Store, "counts">,
  groupId: string,
  day: string,
): ReadonlyMap<string, MemberMarks> {
  const counted = counts.ofGroup(groupId);
  const places = counted.sessions.flatMap((session, at) =>
    session.day === day && session.kind === "seatwork" ? [at] : [],
  );
  const sum = (column: readonly (number | null)[]) =>
    places.reduce((total, at) => total + (column[at] ?? 0), 0);
  return new Map(
    counted.counts.map(({ studentId, self }) => [
      studentId,
      { on: sum(self.on), off: sum(self.off) },
    ]),
  );
}

/** The teams after two students changed places. Throws Missing where one of them is in none. */
function exchanged(teams: TeamRound["teams"], oneId: string, otherId: string): string[][] {
  const placed = new Set(teams.flat());
  if (!placed.has(oneId) || !placed.has(otherId)) throw new Missing("student");
  return teams.map((team) =>
    team.map((id) => (id === oneId ? otherId : id === otherId ? oneId : id)),
  );
}
