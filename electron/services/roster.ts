import { topics } from "../../shared/api/app.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import { nameKey } from "../../shared/roster/name-key.ts";
import type { Group, Student } from "../../shared/roster/roster.ts";
import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import type { DesktopClock } from "./base/clock.ts";
import { givenWords } from "./base/given-words.ts";
import type { Handlers } from "./base/handlers.ts";
import { knownGroup, knownStudent } from "./base/known.ts";
import { Missing, Refusal } from "./base/refusal.ts";
import { todayOf, type WallClock } from "./base/wall-clock.ts";

/** A mean year; which day the question comes is of no matter. */
const yearMs = 365.25 * 86_400_000;

/** Groups of students: made with a first plan, kept in the teacher's order. */
export function groupHandlers(
  store: Store,
  changes: Changes,
  clock: WallClock,
): Handlers["groups"] {
  function setArchived(id: string, archivedMs: number | null) {
    knownGroup(store, id);
    store.groups.setArchived(id, archivedMs);
    changes.publish("groups");
    return {};
  }

  return {
    list: ({ archived }) => store.groups.list(archived),

    create({ name, target }) {
      const nowMs = clock.wallMs();
      const group = store.transaction(() => {
        const made = store.groups.create({ name: filled(name), target, isSample: false }, nowMs);
        addFirstPlan(store, made.id, nowMs);
        return made;
      });
      changes.publish("groups", "plans");
      return group;
    },

    update({ id, name, target }) {
      knownGroup(store, id);
      store.groups.update(id, {
        ...(name === undefined ? {} : { name: filled(name) }),
        ...(target === undefined ? {} : { target }),
      });
      changes.publish("groups");
      return knownGroup(store, id);
    },

    longArchived() {
      const until = store.settings.keptUntil();
      return store.groups
        .archivedBy(clock.wallMs() - yearMs)
        .filter(({ id }) => until[id] === undefined)
        .map(({ id, name, archivedMs }) => ({
          id,
          name,
          years: Math.floor((clock.wallMs() - archivedMs) / yearMs),
        }));
    },

    kept() {
      const until = store.settings.keptUntil();
      const today = todayOf(clock);
      return store.groups.list(true).flatMap(({ id }) => {
        const day = until[id];
        return day === undefined ? [] : [{ id, until: day, hasCome: day <= today }];
      });
    },

    keepUntil({ id, day }) {
      refuseUnarchived(store, id);
      store.settings.keepUntil(id, day);
      changes.publish("groups");
      return {};
    },

    erase({ id }) {
      refuseUnarchived(store, id);
      refuseWhileOpen(store, id);
      const erased = store.eraseGroup(id);
      if (erased === null) throw new Missing("group");
      changes.publish(...topics);
      return erased;
    },

    archive({ id }) {
      refuseWhileOpen(store, id);
      return setArchived(id, clock.wallMs());
    },
    restore({ id }) {
      store.settings.keepUntil(id, null);
      return setArchived(id, null);
    },

    reorder({ ids }) {
      for (const id of ids) knownGroup(store, id);
      store.groups.reorder(
        completed(ids, [...store.groups.list(false), ...store.groups.list(true)]),
      );
      changes.publish("groups");
      return {};
    },
  };
}

/** The plan that every group begins with. */
export function addFirstPlan(store: Store, groupId: string, nowMs: number): void {
  const { language, chime, volume } = store.settings.get();
  const name = givenWords[language].firstPlan;
  store.plans.create({ groupId, name, settings: { ...firstPlan, chime, volume } }, nowMs);
}

/** The people in a group: initials or nicknames are enough. */
export function studentHandlers(
  store: Store,
  changes: Changes,
  clock: Pick<DesktopClock, "wallMs">,
): Handlers["students"] {
  function setArchived(id: string, archivedMs: number | null) {
    knownStudent(store, id);
    store.students.setArchived(id, archivedMs);
    changes.publish("students", "groups");
    return {};
  }

  return {
    list: ({ groupId, archived }) => store.students.list(groupId, archived),

    update({ id, name, picture, target, holdGoal }) {
      const student = knownStudent(store, id);
      if (name !== undefined) refuseTaken(store, student, filled(name));
      store.students.update(id, {
        ...(name === undefined ? {} : { name: name.trim() }),
        ...(picture === undefined ? {} : { picture }),
        ...(target === undefined ? {} : { target }),
        ...(holdGoal === undefined ? {} : { holdGoal }),
      });
      changes.publish("students");
      return knownStudent(store, id);
    },

    move({ id, groupId }) {
      const student = knownStudent(store, id);
      const from = knownGroup(store, student.groupId);
      const to = knownGroup(store, groupId);
      if (from.id === to.id) return student;
      // Nobody is taken out of a session that is going on, or brought into one.
      refuseWhileOpen(store, from.id);
      refuseWhileOpen(store, to.id);
      if (from.isSample || to.isSample) {
        throw new Refusal(
          "sample-move",
          "The sample class is invented: nobody moves into it or out of it.",
        );
      }
      refuseTaken(store, { ...student, groupId: to.id }, student.name);
      store.students.move(id, groupId, clock.wallMs());
      changes.publish("students", "groups", "sessions", "records", "phases");
      return knownStudent(store, id);
    },

    archive({ id }) {
      // Cues that are still to come would count as unanswered.
      refuseWhileOpen(store, knownStudent(store, id).groupId);
      return setArchived(id, clock.wallMs());
    },
    restore: ({ id }) => setArchived(id, null),

    reorder({ groupId, ids }) {
      const students = store.students.listAll(knownGroup(store, groupId).id);
      const there = new Set(students.map(({ id }) => id));
      if (!ids.every((id) => there.has(id))) throw new Missing("student");
      store.students.reorder(groupId, completed(ids, students));
      changes.publish("students");
      return {};
    },

    erase({ id }) {
      const { groupId } = knownStudent(store, id);
      refuseWhileOpen(store, groupId);
      const erased = store.eraseStudent(id);
      if (erased === null) throw new Missing("student");
      changes.publish("students", "groups", "sessions", "records", "phases", "program");
      return erased;
    },
  };
}

/** Only what was archived is kept until a day, or erased: nobody erases the class of this year. */
function refuseUnarchived(store: Store, groupId: string): void {
  const { name, archived } = knownGroup(store, groupId);
  if (archived) return;
  throw new Refusal("not-archived", `Archive ${name} first.`, { name });
}

function filled(name: string): string {
  const trimmed = name.trim();
  if (trimmed === "")
    throw new Refusal("name-empty", "Write a name; initials or a nickname will do.");
  return trimmed;
}

/** Nobody is renamed without having been asked. */
function refuseTaken(store: Store, student: Student, name: string): void {
  const other = store.students
    .listAll(student.groupId)
    .find((each) => each.id !== student.id && nameKey(each.name) === nameKey(name));
  if (other === undefined) return;
  throw new Refusal(
    "name-taken",
    `Another student of this group is called ${other.name}. Add an initial or a number.`,
    { name: other.name },
  );
}

function refuseWhileOpen(store: Store, groupId: string): void {
  const open = store.log.openSessionId();
  if (open === null || store.sessions.get(open)?.groupId !== groupId) return;
  throw new Refusal("session-running", "A session of this group is still open. End it first.");
}

/** The given order first, whoever it leaves out after that as before. */
function completed(ids: readonly string[], all: readonly (Group | Student)[]): string[] {
  return [...new Set([...ids, ...all.map(({ id }) => id)])];
}
