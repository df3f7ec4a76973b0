import type { TeamsState } from "../../shared/api/teams.ts";
import type { TeamSettings } from "../../shared/teams/kept.ts";
import { roundOn, roundToShow } from "../../shared/teams/kept-rounds.ts";
import { type MemberMarks, teamOutcome } from "../../shared/teams/team-outcome.ts";
import { teamsOfDay } from "../../shared/teams/teams-of-day.ts";
import type { Store } from "../store/store.ts";
import type { WallMoment } from "./base/wall-clock.ts";
import { settleTogether } from "./points/earned-together.ts";
import { earnsPoints } from "./points/earns-points.ts";
import { leftOutDays } from "./points/left-out-days.ts";
import { awayOn, beganOn } from "./todays-roll.ts";

/** A day's teams, with what they could not keep. */
export type DayTeams = Pick<TeamsState, "teams" | "unmet" | "isUneven">;

const none: DayTeams = { teams: [], unmet: [], isUneven: false };

/** The teams of days, and what they earn. */
export function teamDays(store: Store) {
  const { teams, ledger } = store;
  const teamsOn = (groupId: string, settings: TeamSettings, day: string, today: string) =>
    teamsOfDayIn(store, groupId, settings, { day, today });

  /**
   * What a day's outcomes are worth to each student who was here and was agreed to earn points. What an earlier
   * day paid it is worth still, however many points a later one gives.
   */
  function duesOn(
    groupId: string,
    settings: TeamSettings,
    day: string,
    today: string,
  ): ReadonlyMap<string, number> {
    const began = day === today ? null : beganOn(store, groupId, day);
    const unpaid =
      began === null
        ? store.agreed.saidNo(groupId, "points")
        : store.agreed.hadSaidNo(groupId, "points", began);
    const dayId = teams.knownDayId(groupId, day);
    const counted = store.counts.ofGroup(groupId);
    const keeps = leftOutDays(store, counted.leftOut).get(day)?.keeps === true;
    const paidTo = (id: string): number =>
      dayId === null ? 0 : (ledger.paidTogether("team", dayId, id)?.due ?? 0);
    const dueTo = (id: string, isMet: boolean): number => {
      const paid = paidTo(id);
      const worth = day === today ? settings.points : paid || settings.points;
      return Math.max(isMet ? worth : 0, keeps ? paid : 0);
    };
    const dues = new Map<string, number>();
    // Of an earlier day also whoever was paid for it, and of whom nothing that counts is on record any more.
    for (const { studentId } of day === today ? [] : counted.counts) {
      if (paidTo(studentId) > 0) dues.set(studentId, dueTo(studentId, false));
    }
    for (const { studentIds, outcome } of teamsOn(groupId, settings, day, today).teams) {
      for (const id of studentIds) dues.set(id, dueTo(id, outcome === "met"));
    }
    for (const id of unpaid) dues.delete(id);
    return dues;
  }

  function isGiven(groupId: string, settings: TeamSettings, day: string, today: string): boolean {
    const dayId = teams.knownDayId(groupId, day);
    if (dayId === null) return false;
    return [...duesOn(groupId, settings, day, today)].every(
      ([id, due]) => (ledger.paidTogether("team", dayId, id)?.due ?? 0) === due,
    );
  }

  /** Brings the ledger to a day's outcomes; to be called within a transaction. */
  function give(
    groupId: string,
    settings: TeamSettings,
    day: string,
    today: string,
    when: WallMoment,
  ): void {
    const dues = duesOn(groupId, settings, day, today);
    const sourceKey = teams.dayId(groupId, day, when.wallMs);
    for (const [studentId, due] of dues) {
      settleTogether(ledger, { rule: "team", sourceKey, studentId, due, day, ...when });
    }
  }

  return {
    teamsOn,
    isGiven,
    give,

    /** The last day before today on which teams worked, with what it may still give; null without one. */
    lastBefore(groupId: string, settings: TeamSettings, today: string): TeamsState["earlier"] {
      const day = store.counts
        .ofGroup(groupId)
        .sessions.findLast((each) => each.kind === "seatwork" && each.day < today)?.day;
      if (day === undefined || settings.goal === null) return null;
      if (roundOn(teams.rounds(groupId), day) === null) return null;
      const outcomes = teamsOn(groupId, settings, day, today).teams;
      return {
        day,
        met: outcomes.flatMap(({ team, outcome }) => (outcome === "met" ? [team] : [])),
        arePointsGiven: isGiven(groupId, settings, day, today),
      };
    },

    /**
     * Follows what was written of a session: a day that has given points moves by the difference; one that has
     * not waits for a press. Whether it had.
     */
    follow(sessionId: string, today: string, when: WallMoment): boolean {
      const session = store.sessions.get(sessionId);
      if (session === null || session.kind !== "seatwork") return false;
      const { groupId, day } = session;
      const term = teams.term(groupId);
      if (term === null || teams.knownDayId(groupId, day) === null) return false;
      if (!earnsPoints(store, groupId)) return false;
      store.transaction(() => give(groupId, term.settings, day, today, when));
      return true;
    },
  };
}

/** The teams of a day, without whoever was absent; before the first round those to come. */
function teamsOfDayIn(
  store: Store,
  groupId: string,
  settings: TeamSettings,
  { day, today }: { readonly day: string; readonly today: string },
): DayTeams {
  const { teams } = store;
  const round = roundToShow(teams.rounds(groupId), day);
  if (round === null) return none;
  const hasBegun = round.startsOn <= day;
  const away = awayOn(store, groupId, day, today);
  const here = rosterOn(store, groupId, day, today).filter((id) => !away.has(id));
  const names = teams.names(groupId);
  const marks = marksOn(store, groupId, day);
  const { teams: placed, ...kept } = teamsOfDay(
    teams.teamsOn(round, day),
    here,
    teams.wishes(groupId),
  );
  const shown = placed.map((studentIds, at) => ({
    team: at + 1,
    name: names[at] ?? "",
    studentIds: here.filter((id) => studentIds.includes(id)),
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

/** Students of a group as it is today; on an earlier day those who then took part in seatwork. */
function rosterOn(store: Store, groupId: string, day: string, today: string): string[] {
  if (day === today) return store.students.list(groupId, false).map(({ id }) => id);
  const { sessions, counts } = store.counts.ofGroup(groupId);
  const tookPart = (column: readonly (number | null)[]) =>
    sessions.some(
      (session, at) =>
        session.day === day && session.kind === "seatwork" && (column[at] ?? null) !== null,
    );
  return counts.filter(({ self }) => tookPart(self.on)).map(({ studentId }) => studentId);
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
