import { addSample } from "../../electron/services/sample-class.ts";
import { openStore, type Store } from "../../electron/store/store.ts";
import { firstPlan, type PlanSettings } from "../../shared/plan/plan.ts";
import { pictureNames } from "../../src/class/pictures/picture-names.ts";
import { fillFiveYears } from "../../tests/bench/five-years.ts";
import type { Language } from "./words.ts";

const clock = { wallMs: Date.now, offsetMinutes: () => 0 };
/** Cues without sound, at known moments, so that a picture can wait for one. */
const silent = {
  law: "fixed",
  meanSeconds: 60,
  cueing: "silent",
  lengthSeconds: 2400,
  checkPace: "every",
} as const;

/** Invented names, short and long ones, with marks above letters. */
const fortyNames = Array.from({ length: 40 }, (_, index) => {
  const first = ["Ash", "Zoë", "Maximiliane", "Iñaki", "Bo", "Marie-Josephine", "Ulla", "Tern"];
  const name = first[index % first.length] ?? "";
  return index < first.length ? name : `${name} ${String.fromCharCode(65 + index / first.length)}.`;
});

function fill<Made>(folder: string, language: Language, make: (store: Store) => Made): Made {
  const store = openStore({ folder, now: Date.now });
  try {
    store.settings.save({ language });
    return make(store);
  } finally {
    store.close();
  }
}

/** An app that was opened once and holds nothing. */
export const emptyApp = (folder: string, language: Language) =>
  fill(folder, language, () => undefined);

/** The invented class with its five weeks. */
export const sampleClass = (folder: string, language: Language) =>
  fill(folder, language, (store) => {
    const groupId = addSample(store, clock);
    const [plan] = store.plans.list(groupId);
    if (plan === undefined) throw new Error("The sample class has no plan.");
    const studentIds = store.students.list(groupId, false).map(({ id }) => id);
    const [contract] = store.contracts.ofGroup(groupId);
    return { groupId, planId: plan.id, studentIds, contractedId: contract?.studentId ?? "" };
  });

/** The invented class under a plan whose cues come without sound, at known moments. */
export function liveClass(folder: string, language: Language) {
  const made = sampleClass(folder, language);
  fill(folder, language, (store) => {
    const [plan] = store.plans.list(made.groupId);
    if (plan === undefined) return;
    const settings: PlanSettings = { ...plan.settings, ...silent, recording: "screen" };
    store.plans.update({ id: plan.id, name: plan.name, settings });
  });
  return made;
}

/** A class of forty with pictures, whose cues come without sound. */
export const fortyStudents = (folder: string, language: Language) =>
  fill(folder, language, (store) => {
    const nowMs = Date.now() - 60_000;
    const group = store.groups.create({ name: "Room 12", target: "", isSample: false }, nowMs);
    const students = store.students.add(group.id, fortyNames, nowMs);
    students.forEach(({ id }, index) => {
      store.students.update(id, { picture: pictureNames[index % pictureNames.length] ?? null });
    });
    const settings = { ...firstPlan, ...silent };
    const plan = store.plans.create({ groupId: group.id, name: "Reading", settings }, nowMs);
    return { groupId: group.id, planId: plan.id, studentIds: students.map(({ id }) => id) };
  });

/** A group that was made a moment ago, and one that has had its first session today. */
export const firstDay = (folder: string, language: Language) =>
  fill(folder, language, (store) => {
    const nowMs = Date.now() - 3_600_000;
    store.groups.create({ name: "Blue table", target: "", isSample: false }, nowMs);
    const group = store.groups.create({ name: "Room 7", target: "", isSample: false }, nowMs);
    const ids = store.students
      .add(group.id, ["Fern", "Robin", "Sorrel", "Ash", "Teal"], nowMs)
      .map(({ id }) => id);
    const plan = store.plans.create(
      { groupId: group.id, name: "Math", settings: firstPlan },
      nowMs,
    );
    const { id } = store.sessions.create({
      groupId: group.id,
      kind: "seatwork",
      planName: plan.name,
      plan: firstPlan,
      seed: "first day",
      startedMs: nowMs,
      offsetMinutes: 0,
      day: new Date(nowMs).toISOString().slice(0, 10),
    });
    const stamp = (atMs: number) => ({ atMs, wallMs: nowMs + atMs, offsetMinutes: 0 });
    store.log.append(id, { kind: "begun" }, stamp(0));
    for (let cue = 1; cue <= 8; cue += 1) {
      const at = stamp(cue * 120_000);
      store.log.append(id, { kind: "announced", cue }, at);
      const delivered = { by: "sound", latenessMs: 1, problem: null } as const;
      store.log.append(id, { kind: "delivered", cue, ...delivered }, at);
      ids.forEach((studentId, place) => {
        if ((cue + place) % 7 === 0) return;
        const value = (cue * 3 + place) % 5 < 3 ? "on" : "off";
        const mark = { studentId, cue, value, way: "screen", late: false } as const;
        store.log.append(id, { kind: "mark", ...mark }, at);
      });
    }
    store.log.append(id, { kind: "ended", reason: "finished" }, stamp(1_200_000));
    return { groupId: group.id, planId: plan.id, studentIds: ids, sessionId: id };
  });

/** Five invented school years of a class of 36. */
export function fiveYears(folder: string, language: Language) {
  const from = Date.now() - 1_800 * 86_400_000;
  const groupId = fillFiveYears(folder, from);
  return fill(folder, language, (store) => {
    const studentIds = store.students.list(groupId, false).map(({ id }) => id);
    const plan = store.plans.create({ groupId, name: "Reading", settings: firstPlan }, from);
    return { groupId, planId: plan.id, studentIds };
  });
}

/** A group whose students are still to be added. */
const noStudents = (folder: string, language: Language) =>
  fill(folder, language, (store) => {
    const nowMs = Date.now();
    const group = store.groups.create({ name: "Blue table", target: "", isSample: false }, nowMs);
    const plan = store.plans.create(
      { groupId: group.id, name: "Math", settings: firstPlan },
      nowMs,
    );
    return { groupId: group.id, planId: plan.id, studentIds: [] };
  });

/** What an app can hold, from nothing to five years. */
export const states = { empty: emptyApp, noStudents, firstDay, forty: fortyStudents, fiveYears };
