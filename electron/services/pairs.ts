import type { PairLesson } from "../../shared/teams/kept.ts";
import { type LessonPairs, nextLesson } from "../../shared/teams/next-lesson.ts";
import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import type { Handlers } from "./base/handlers.ts";
import { knownGroup } from "./base/known.ts";
import { Missing, Refusal } from "./base/refusal.ts";
import { todayOf, type WallClock } from "./base/wall-clock.ts";
import { settleTogether } from "./points/earned-together.ts";
import { earnsPoints } from "./points/earns-points.ts";
import { absentOn } from "./todays-roll.ts";

type KeptLesson = PairLesson & { readonly groupId: string };

/** Lessons in which students teach each other in pairs, over a term. */
export function pairsHandlers(store: Store, changes: Changes, clock: WallClock): Handlers["pairs"] {
  const { pairLessons } = store;
  const today = () => todayOf(clock);

  function lessonOf(lessonId: string): KeptLesson {
    const lesson = pairLessons.get(lessonId);
    if (lesson === null) throw new Missing("lesson");
    return lesson;
  }

  /** Pays each of these what the lesson is worth to them; nothing is moved of who earns no points. */
  function pay(lesson: KeptLesson, isWorth: (corrected: boolean) => boolean): void {
    const unpaid = store.agreed.saidNo(lesson.groupId, "points");
    const when = { day: lesson.day, wallMs: clock.wallMs(), offsetMinutes: clock.offsetMinutes() };
    for (const { studentId, corrected } of lesson.parts) {
      if (unpaid.has(studentId)) continue;
      const due = isWorth(corrected) ? lesson.points : 0;
      const earned = { rule: "pair", sourceKey: lesson.id, studentId, due } as const;
      settleTogether(store.ledger, { ...earned, ...when });
    }
  }

  return {
    state({ groupId }) {
      knownGroup(store, groupId);
      return {
        today: today(),
        lessons: pairLessons.list(groupId),
        absentIds: [...absentOn(store, groupId, today())],
        earns: earnsPoints(store, groupId),
      };
    },

    begin({ groupId, absentIds, points, lessons }) {
      knownGroup(store, groupId);
      const made = store.transaction(() => {
        const students = store.students.list(groupId, false).map(({ id }) => id);
        const before = pairLessons.list(groupId);
        if (lessons !== undefined && lessons !== before.length) {
          throw new Refusal("pairs-moved", "Another window has changed this group's lessons.");
        }
        const pairs = nextLesson(students, before, new Set(absentIds));
        if (pairs === null) {
          throw new Refusal("pairs-too-few", "Two students or more make pairs.");
        }
        const paid = earnsPoints(store, groupId) ? points : 0;
        const facts = { day: today(), points: paid, parts: partsOf(pairs) };
        return pairLessons.create(groupId, facts, clock.wallMs());
      });
      changes.publish("teams");
      return made;
    },

    correct({ lessonId, studentIds, corrected }) {
      store.transaction(() => {
        lessonOf(lessonId);
        pairLessons.setCorrected(lessonId, studentIds, corrected);
        pay(lessonOf(lessonId), (isCorrected) => isCorrected);
      });
      changes.publish("points", "teams");
      return {};
    },

    remove({ lessonId }) {
      store.transaction(() => {
        pay(lessonOf(lessonId), () => false);
        pairLessons.remove(lessonId);
      });
      changes.publish("points", "teams");
      return {};
    },
  };
}

/** A lesson's pairs as they are kept: nobody has corrected anything yet. */
export function partsOf({ pairs, out }: LessonPairs): PairLesson["parts"] {
  const paired = pairs.flatMap(({ teacher, learner }, at) => [
    { studentId: teacher, pair: at + 1, taught: true, corrected: false },
    { studentId: learner, pair: at + 1, taught: false, corrected: false },
  ]);
  if (out === null) return paired;
  return [...paired, { studentId: out, pair: null, taught: false, corrected: false }];
}
