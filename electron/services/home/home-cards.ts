import { standsFor } from "../../../shared/home/agreed.ts";
import {
  cellCount,
  type HomeCardDay,
  type HomeCardVersion,
  isEmptyDay,
  versionOn,
} from "../../../shared/home/kept-card.ts";
import { mergedDay } from "../../../shared/home/merged-day.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { newId } from "../../store/new-id.ts";
import type { Store } from "../../store/store.ts";
import type { Changes } from "../base/changes.ts";
import type { DesktopClock } from "../base/clock.ts";
import type { Handlers } from "../base/handlers.ts";
import { knownGroup, knownStudent } from "../base/known.ts";
import { Missing, Refusal } from "../base/refusal.ts";
import { refuseIfSavedElsewhere } from "../base/saved-elsewhere.ts";

/** Cards that go home each day: their versions, and what came back. */
export function homeCardHandlers(
  store: Store,
  changes: Changes,
  clock: Pick<DesktopClock, "wallMs">,
): Handlers["homeCards"] {
  const { homeCards } = store;

  /** Students of a group to whom a card goes: not where a no stands, nor where it was stopped. */
  function withCard(groupId: string) {
    knownGroup(store, groupId);
    return store.agreed
      .ofGroup(groupId)
      .filter(
        ({ cardStopped, said }) => !cardStopped && standsFor(said, "home-card")?.answer !== "no",
      );
  }

  return {
    versions: ({ studentId }) => homeCards.versions(knownStudent(store, studentId).id),

    saveVersion({ after, ...facts }) {
      knownStudent(store, facts.studentId);
      const newest = homeCards.versions(facts.studentId).at(-1)?.id ?? null;
      if (after !== undefined) refuseIfSavedElsewhere(after, newest);
      const nowMs = clock.wallMs();
      const version = { id: newId(nowMs), ...facts };
      homeCards.addVersion(version, nowMs);
      changes.publish("home");
      return version;
    },

    ofDay({ groupId, day }) {
      return withCard(groupId).flatMap(({ studentId, language }) => {
        const versions = homeCards.versions(studentId);
        const [typed = null] = homeCards.days(studentId, day, day);
        // What came back stays with the version that was printed.
        const version = versions.find(({ id }) => id === typed?.cardId) ?? versionOn(versions, day);
        return version === null ? [] : [{ studentId, version, typed, language }];
      });
    },

    saveDays({ days }) {
      const written = store.transaction(() => {
        let count = 0;
        for (const { studentId, ...said } of days) {
          if (saveDay(store, knownStudent(store, studentId), said, clock.wallMs())) count += 1;
        }
        return count;
      });
      if (written > 0) changes.publish("home");
      return { written };
    },

    span({ groupId, from, to }) {
      return withCard(groupId).flatMap(({ studentId, language }) => {
        const versions = homeCards.versions(studentId);
        const cards = homeCards.days(studentId, from, to).flatMap((typed) => {
          const version = versions.find(({ id }) => id === typed.cardId);
          return version === undefined || isEmptyDay(typed) ? [] : [{ version, typed }];
        });
        const current = versionOn(versions, to);
        if (current === null) return [];
        // Also in a group that was left since: the week is the student's.
        const counts = () => store.counts.ofStudent(studentId);
        const selfRecord = current.card.selfRecord ? recorded(counts(), studentId, from, to) : null;
        return [{ studentId, language, cards, selfRecord }];
      });
    },
  };
}

/** Writes a day's card if it says anything new. Throws Refusal where it does not fit its version. */
function saveDay(
  { homeCards }: Store,
  student: Student,
  { typed, began }: { readonly typed: HomeCardDay; readonly began?: HomeCardDay | undefined },
  nowMs: number,
): boolean {
  const version = homeCards.versions(student.id).find(({ id }) => id === typed.cardId);
  if (version === undefined) throw new Missing("home card");
  refuseMisfit(student, version, typed);
  const [before = null] = homeCards.days(student.id, typed.day, typed.day);
  const isOneCard = before?.cardId === typed.cardId && began?.cardId === typed.cardId;
  const whole =
    isOneCard && before !== null && began !== undefined ? mergedDay(began, typed, before) : typed;
  if (before === null ? isEmptyDay(whole) : isSame(before, whole)) return false;
  homeCards.addDay(student.id, whole, nowMs);
  return true;
}

const isSame = (one: HomeCardDay, other: HomeCardDay): boolean =>
  one.cardId === other.cardId &&
  one.homework === other.homework &&
  one.wentWell === other.wentWell &&
  one.tomorrow === other.tomorrow &&
  JSON.stringify(one.ratings) === JSON.stringify(other.ratings);

function refuseMisfit({ name }: Student, { card }: HomeCardVersion, { ratings }: HomeCardDay) {
  const cells = cellCount(card);
  const isYesNo = card.scale.kind === "yes-no";
  const fits = ratings.every((each) => !isYesNo || each === null || each === 0 || each === 4);
  if (ratings.length === cells && fits) return;
  throw new Refusal(
    "home-card-misfit",
    `This is not ${name}'s card of that day. Open the page again and type it once more.`,
    { student: name },
  );
}

/** What a student recorded in the seatwork of some days. */
function recorded(
  { sessions, counts }: ReturnType<Store["counts"]["ofGroup"]>,
  studentId: string,
  from: string,
  to: string,
) {
  const own = counts.find((each) => each.studentId === studentId)?.self;
  let [on, off] = [0, 0];
  sessions.forEach(({ kind, day }, at) => {
    if (kind !== "seatwork" || day < from || day > to) return;
    on += own?.on[at] ?? 0;
    off += own?.off[at] ?? 0;
  });
  return { on, off };
}
