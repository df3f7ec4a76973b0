import { dayNumber, dayText, mondayOf } from "../../shared/calendar/calendar.ts";
import type { TeamSettings } from "../../shared/teams/kept.ts";
import { nextLesson } from "../../shared/teams/next-lesson.ts";
import type { Store } from "../store/store.ts";
import { givenWords } from "./base/given-words.ts";
import { partsOf } from "./pairs.ts";
import { settleTogether } from "./points/earned-together.ts";

const settings: TeamSettings = {
  size: 4,
  rounds: 7,
  weekday: 1,
  goal: 0.7,
  points: 2,
  isShown: false,
};
/** A lesson in pairs on each fifth of the days. */
const daysToLesson = 5;
const lessonPoints = 2;

/**
 * Gives the invented class two teams a week and a lesson in pairs a week, from the days on which it sat.
 *
 * Its eight students are the corners of a cube; each round parts them by one of the seven ways in which a
 * plane through the origin of the affine geometry over two elements does, so that each two are in one team
 * exactly three times. No search is needed.
 */
export function addSampleTeams(
  store: Store,
  groupId: string,
  days: readonly string[],
  now: { readonly wallMs: number; readonly offsetMinutes: number },
): void {
  const ids = store.students.list(groupId, false).map(({ id }) => id);
  const { wallMs, offsetMinutes } = now;
  const first = mondayOf(dayNumber(days[0] ?? ""));
  store.teams.saveSettings(groupId, settings, "sample");
  store.teams.saveNames(groupId, givenWords[store.settings.get().language].sampleTeams);
  const rounds = Array.from({ length: settings.rounds }, (_, at) => ({
    startsOn: dayText(first + 7 * at),
    teams: [0, 1].map((side) => ids.filter((_id, corner) => sideOf(corner, at + 1) === side)),
  }));
  store.teams.deal(groupId, 0, rounds, wallMs);
  for (const day of days.filter((_, at) => at % daysToLesson === daysToLesson - 1)) {
    const pairs = nextLesson(ids, store.pairLessons.list(groupId), new Set());
    if (pairs === null) return;
    const parts = partsOf(pairs).map((part) => ({ ...part, corrected: true }));
    const facts = { day, points: lessonPoints, parts };
    const { id } = store.pairLessons.create(groupId, facts, wallMs);
    for (const { studentId } of parts) {
      const earned = { rule: "pair", sourceKey: id, studentId, due: lessonPoints } as const;
      settleTogether(store.ledger, { ...earned, day, wallMs, offsetMinutes });
    }
  }
}

/** On which side of a plane a corner lies: the parity of the bits that both numbers share. */
function sideOf(corner: number, plane: number): number {
  const shared = corner & plane;
  return ((shared >> 2) ^ (shared >> 1) ^ shared) & 1;
}
