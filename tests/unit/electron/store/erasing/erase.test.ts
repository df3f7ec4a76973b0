import { readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { settleTogether } from "../../../../../electron/services/points/earned-together.ts";
import {
  databaseName,
  listBackups,
  restoreBackup,
  verifyBackup,
} from "../../../../../electron/store/file/backup.ts";
import { openStore, type Store } from "../../../../../electron/store/store.ts";
import { firstPlan } from "../../../../../shared/plan/plan.ts";
import type { SessionEventBody } from "../../../../../shared/session/event.ts";
import { monday, temporaryFolder, temporaryStore } from "../temporary-folder.ts";

const dayMs = 86_400_000;
const gone = "Zebrafinch Quux";
const stays = "Otter Quiet";

/** A class with two sessions, in which both students appear everywhere a student can. */
function fill(store: Store) {
  const { id: groupId } = store.groups.create(
    { name: "Room 4", target: "Eyes on my work", isSample: false },
    monday,
  );
  const [leaver, stayer] = store.students.add(groupId, [gone, stays], monday);
  if (leaver === undefined || stayer === undefined) throw new Error("Nobody was added");
  const sessionIds = [0, 1].map((index) =>
    fillSession(store, groupId, [leaver.id, stayer.id], index),
  );
  for (const studentId of [leaver.id, stayer.id]) {
    const phase = {
      groupId,
      studentId,
      kind: "baseline",
      label: "",
      startsOn: "2026-03-02",
      draw: null,
      probes: null,
    } as const;
    store.phases.create({ ...phase, label: `Alone` }, monday);
    store.decisions.add({
      groupId,
      studentId,
      advice: "keep-going",
      accepted: true,
      note: `About ${gone}`,
      decidedMs: monday,
      day: "2026-03-02",
    });
  }
  const privilege = store.privileges.create(
    {
      groupId,
      name: `Sit beside ${gone}`,
      picture: null,
      price: 3,
      band: 1,
      places: null,
      minutes: null,
      perDay: null,
      notFor: [leaver.id],
    },
    monday,
  );
  for (const studentId of [leaver.id, stayer.id]) {
    addEntries(store, studentId, privilege.id);
    addPapers(store, studentId);
  }
  store.practiceExamples.save(groupId, {
    working: [`${gone} reads`, `${stays} writes`],
    notWorking: [`${gone} reads`],
  });
  addTogether(store, groupId, [leaver.id, stayer.id]);
  store.students.update(leaver.id, { target: `Target of ${gone}`, picture: "fox" });
  return { groupId, leaverId: leaver.id, stayerId: stayer.id, sessionIds };
}

/** What was agreed, a home card that came back, and a contract with a closed day: they name the one who leaves. */
function addPapers(store: Store, studentId: string): void {
  const id = `00000000-0000-7000-9000-${studentId.slice(-12)}`;
  const said = {
    line: "cued",
    answer: "yes",
    day: "2026-03-02",
    who: `Father of ${gone}`,
  } as const;
  store.agreed.add(studentId, said, monday);
  store.agreed.changePaper(studentId, { reviewOn: "2026-06-01", language: "es" });
  store.familyWords.save(studentId, `Works well beside ${gone}`, "2026-03-02");
  const scale = { kind: "yes-no", goodEnd: "five", weights: [0, 5, 10, 15, 20] } as const;
  const card = {
    goals: [`Work beside ${gone}`],
    periods: ["Reading"],
    scale: { ...scale, weights: [...scale.weights] },
    homework: true,
    selfRecord: false,
  };
  store.homeCards.addVersion({ id, studentId, fromDay: "2026-03-02", card }, monday);
  const day = { cardId: id, day: "2026-03-02", ratings: [4 as const] };
  const texts = { homework: `With ${gone}`, wentWell: `Helped ${gone}`, tomorrow: `Ask ${gone}` };
  store.homeCards.addDay(studentId, { ...day, ...texts }, monday);
  const terms = {
    wording: "young",
    goal: { kind: "work", completed: 0.8, correct: null },
    points: 0,
    earns: `A game with ${gone}`,
    cost: 0,
    checkedBy: "Ms Reed",
  } as const;
  const facts = { fromDay: "2026-03-02", reviewOn: "2026-03-16", signedOn: null, endedOn: null };
  store.contracts.add({ id, studentId, terms, ...facts }, monday);
  store.contracts.close({ id, contractId: id, studentId, day: "2026-03-02" }, monday);
}

/** Points earned, spent and given back again. */
function addEntries(store: Store, studentId: string, privilegeId: string): void {
  const sourceKey = `00000000-0000-4000-8000-${studentId.slice(-12)}`;
  const entry = {
    studentId,
    sourceKey,
    revision: 1,
    due: null,
    forgiven: 0,
    day: "2026-03-02",
    wallMs: monday,
    offsetMinutes: 0,
    reverses: null,
    privilegeId: null,
  } as const;
  store.ledger.add({ ...entry, source: "press", rule: "given", amount: 4 });
  store.ledger.add({ ...entry, source: "exchange", rule: "exchange", amount: -3, privilegeId });
  const bought = store.ledger.find("exchange", sourceKey, studentId);
  const reverses = bought?.number ?? null;
  store.ledger.add({ ...entry, source: "reversal", rule: "exchange", amount: 3, reverses });
}

/** In a team, in a wish, in a pair, and with points earned together. */
function addTogether(store: Store, groupId: string, studentIds: string[]): void {
  const settings = { size: 2, rounds: 3, weekday: 1, goal: 0.7, points: 2, isShown: true };
  store.teams.saveSettings(groupId, settings, "seed");
  store.teams.saveNames(groupId, [`The team of ${gone}`]);
  store.teams.saveWishes(groupId, [{ kind: "together", studentIds }], monday);
  store.teams.deal(groupId, 0, [{ startsOn: "2026-03-02", teams: [studentIds] }], monday);
  const parts = studentIds.map((studentId, at) => ({
    studentId,
    pair: 1,
    taught: at === 0,
    corrected: true,
  }));
  const lesson = store.pairLessons.create(groupId, { day: "2026-03-02", points: 2, parts }, monday);
  for (const studentId of studentIds) {
    const when = { day: "2026-03-02", wallMs: monday, offsetMinutes: 0 };
    const earned = { rule: "pair", sourceKey: lesson.id, studentId, due: 2 } as const;
    settleTogether(store.ledger, { ...earned, ...when });
  }
}

function fillSession(store: Store, groupId: string, studentIds: string[], index: number): string {
  const startedMs = monday + index * dayMs;
  const { id } = store.sessions.create({
    groupId,
    kind: "seatwork",
    planName: "First plan",
    plan: firstPlan,
    seed: `seed ${index}`,
    startedMs,
    offsetMinutes: 0,
    day: "2026-03-02",
  });
  const bodies: SessionEventBody[] = [
    { kind: "begun" },
    { kind: "announced", cue: 1 },
    { kind: "delivered", cue: 1, by: "sound", latenessMs: 0, problem: null },
    ...studentIds.flatMap((studentId): SessionEventBody[] => [
      { kind: "mark", studentId, cue: 1, value: "on", way: "screen", late: false },
      { kind: "spot-check", studentId, cue: 1, value: "on" },
      { kind: "total", studentId, on: 1, off: 0, way: "paper" },
    ]),
    { kind: "interruption", note: `${gone} needed help, ${stays} too` },
    { kind: "ended", reason: "teacher" },
    { kind: "note", text: `"${gone}": fine, and ${gone}'s desk too.` },
    { kind: "set-aside", studentId: studentIds[0] ?? "" },
  ];
  store.log.appendAll(id, bodies, { atMs: 0, wallMs: startedMs, offsetMinutes: 0 });
  return id;
}

/** The files under a folder that hold the text anywhere in their bytes. */
function filesWith(folder: string, text: string): string[] {
  const needle = Buffer.from(text);
  return readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => {
    const path = join(folder, name);
    return statSync(path).isFile() && readFileSync(path).includes(needle);
  });
}

test("1. no byte of the name or the id is left in any file, backups included", () => {
  const folder = temporaryFolder();
  let wallMs = monday;
  const store = temporaryStore(folder, () => wallMs);
  const { leaverId } = fill(store);
  // What waits on Today is put aside under a name that says of whom it is.
  store.putAside.put(`agreed ${leaverId} 2026-06-01`, monday);
  store.putAside.put("home cards of all", monday);
  store.students.update(leaverId, { name: "Renamed Quokka" });
  store.backUpIfDue();
  store.students.update(leaverId, { name: gone });
  wallMs += dayMs;
  store.backUpIfDue();
  expect(filesWith(folder, leaverId).length).toBeGreaterThanOrEqual(3);

  const erased = store.eraseStudent(leaverId);
  expect(erased).toEqual({ events: 8, backups: 2 });
  expect(filesWith(folder, gone)).toEqual([]);
  expect(filesWith(folder, leaverId)).toEqual([]);
  expect(filesWith(folder, "Renamed Quokka")).toEqual([]);
  expect(store.putAside.list()).toEqual(["home cards of all"]);
  store.close();
  expect(filesWith(folder, leaverId)).toEqual([]);
  expect(filesWith(folder, stays).length).toBeGreaterThanOrEqual(3);
});

test("2. what the others did, and the session, stay as they were", () => {
  const store = temporaryStore();
  const { leaverId, stayerId, groupId, sessionIds } = fill(store);
  const [sessionId] = sessionIds;
  if (sessionId === undefined) throw new Error("No session");
  const before = store.log.read(sessionId, 0);
  store.eraseStudent(leaverId);
  const after = store.log.read(sessionId, 0);
  const isOthers = ({ body }: (typeof before)[number]) =>
    !("studentId" in body) || body.studentId !== leaverId;
  expect(after.map(({ stamp }) => stamp)).toEqual(
    before.filter(isOthers).map(({ stamp }) => stamp),
  );
  expect(after.map(({ body }) => body.kind)).toEqual(
    before.filter(isOthers).map(({ body }) => body.kind),
  );
  expect(store.students.listAll(groupId).map(({ id }) => id)).toEqual([stayerId]);
  expect(store.phases.list(groupId).map(({ studentId }) => studentId)).toEqual([stayerId]);
  expect(store.teams.rounds(groupId).map(({ teams }) => teams)).toEqual([[[stayerId]]]);
  expect(store.teams.names(groupId)).toEqual(["The team of …"]);
  expect(store.teams.wishes(groupId)).toEqual([]);
  const [lesson] = store.pairLessons.list(groupId);
  expect(lesson?.parts.map(({ studentId }) => studentId)).toEqual([stayerId]);
  expect(after.find(({ body }) => body.kind === "interruption")?.body).toEqual({
    kind: "interruption",
    note: `… needed help, ${stays} too`,
  });
  expect(after.find(({ body }) => body.kind === "note")?.body).toEqual({
    kind: "note",
    text: `"…": fine, and …'s desk too.`,
  });
});

test("10. the papers of those who stay are whole and name nobody who is gone", () => {
  const store = temporaryStore();
  const { groupId, leaverId, stayerId } = fill(store);
  store.eraseStudent(leaverId);
  expect(store.agreed.page(stayerId).said).toMatchObject([{ answer: "yes", who: "Father of …" }]);
  expect(store.homeCards.versions(stayerId)).toMatchObject([
    { card: { goals: ["Work beside …"] } },
  ]);
  expect(store.homeCards.days(stayerId, "2026-03-02", "2026-03-02")).toMatchObject([
    { ratings: [4], homework: "With …", wentWell: "Helped …", tomorrow: "Ask …" },
  ]);
  const [contract] = store.contracts.ofStudent(stayerId);
  expect(contract?.terms.earns).toBe("A game with …");
  expect(store.contracts.closedDays(contract?.id ?? "")).toHaveLength(1);
  expect(store.agreed.page(leaverId).said).toEqual([]);
  expect(store.familyWords.ofGroup(groupId)).toMatchObject([
    { studentId: stayerId, words: "Works well beside …" },
  ]);
  expect(store.homeCards.versions(leaverId)).toEqual([]);
  expect(store.contracts.ofStudent(leaverId)).toEqual([]);
});

test("11. who was in several groups is named in none of them, and no further group is touched", () => {
  const folder = temporaryFolder();
  let wallMs = monday;
  const store = temporaryStore(folder, () => wallMs);
  const { groupId, leaverId, sessionIds } = fill(store);
  const rooms = ["Room 5", "Room 6"].map((name) => {
    const { id } = store.groups.create({ name, target: "", isSample: false }, monday);
    const [mate] = store.students.add(id, [`${name} mate`], monday);
    if (mate === undefined) throw new Error("Nobody was added");
    wallMs += dayMs;
    store.students.move(leaverId, id, wallMs);
    const sessionId = fillSession(store, id, [leaverId, mate.id], 1);
    store.practiceExamples.save(id, { working: [`${gone} reads`], notWorking: [] });
    store.familyWords.save(mate.id, `Works well beside ${gone}`, "2026-03-02");
    return { id, sessionId };
  });
  // Of the same name in a group the student was never in: somebody else's.
  const { id: other } = store.groups.create(
    { name: "Room 7", target: "", isSample: false },
    monday,
  );
  store.practiceExamples.save(other, { working: [`${gone} reads`], notWorking: [] });

  store.eraseStudent(leaverId);
  const said = (sessionId: string) =>
    store.log.read(sessionId, 0).flatMap(({ body }) => (body.kind === "note" ? [body.text] : []));
  for (const sessionId of [...sessionIds, ...rooms.map((room) => room.sessionId)]) {
    expect(said(sessionId)).toEqual([`"…": fine, and …'s desk too.`]);
  }
  for (const id of [groupId, ...rooms.map((room) => room.id)]) {
    expect(store.practiceExamples.get(id).working[0]).toBe("… reads");
    expect(store.familyWords.ofGroup(id)).toMatchObject([{ words: "Works well beside …" }]);
    expect(store.students.listAll(id).map(({ id: left }) => left)).not.toContain(leaverId);
  }
  expect(filesWith(folder, leaverId)).toEqual([]);
  expect(store.practiceExamples.get(other).working).toEqual([`${gone} reads`]);
});

test("3. a number of the log that was erased is never given again", () => {
  const store = temporaryStore();
  const { leaverId, sessionIds } = fill(store);
  const [sessionId] = sessionIds;
  if (sessionId === undefined) throw new Error("No session");
  const last = store.log.lastEvent(sessionId)?.stamp.seq ?? 0;
  store.eraseStudent(leaverId);
  expect(store.log.lastEvent(sessionId)?.stamp.seq).toBe(last - 1);
  const stamp = { atMs: 0, wallMs: monday, offsetMinutes: 0 };
  const next = store.log.append(sessionId, { kind: "note", text: "later" }, stamp);
  expect(next.stamp.seq).toBe(last + 1);
});

test("4. the log is closed to deleting again afterwards, and unknown students are no error", () => {
  const folder = temporaryFolder();
  const store = temporaryStore(folder);
  const { leaverId, sessionIds } = fill(store);
  store.eraseStudent(leaverId);
  expect(store.eraseStudent(leaverId)).toBeNull();
  expect(store.log.read(sessionIds[1] ?? "", 0).length).toBeGreaterThan(0);
});

test("5. cleaned backups are whole and can be restored", () => {
  const folder = temporaryFolder();
  const store = openStore({ folder, now: () => monday });
  const { leaverId, groupId } = fill(store);
  store.backUpIfDue();
  store.eraseStudent(leaverId);
  store.close();
  const [backup] = listBackups(folder);
  if (backup === undefined) throw new Error("The backup is gone");
  verifyBackup(backup.path);
  restoreBackup(folder, backup.path, monday + dayMs);
  expect(
    temporaryStore(folder)
      .students.listAll(groupId)
      .map(({ name }) => name),
  ).toEqual([stays]);
});

test("6. backups that cannot be read and files that a restore set aside are removed", () => {
  const folder = temporaryFolder();
  const first = openStore({ folder, now: () => monday });
  const { leaverId } = fill(first);
  const backup = first.backUpIfDue();
  if (backup === null) throw new Error("No backup was taken");
  first.close();
  restoreBackup(folder, backup, monday);
  const torn = readFileSync(backup);
  writeFileSync(join(folder, "backups", "20260301T100000000Z-daily.sqlite"), torn.subarray(8));
  const store = temporaryStore(folder);
  expect(store.eraseStudent(leaverId)?.backups).toBe(2);
  expect(filesWith(folder, leaverId)).toEqual([]);
  expect(readdirSync(folder).filter((name) => name.startsWith("pebblechime-damaged"))).toEqual([]);
  expect(readdirSync(folder)).toContain(databaseName);
});

test("7. counts no longer name who is gone", () => {
  const store = temporaryStore();
  const { groupId, leaverId, stayerId } = fill(store);
  expect(store.counts.ofGroup(groupId).checks).toHaveLength(4);
  store.eraseStudent(leaverId);
  const counts = store.counts.ofGroup(groupId);
  expect(counts.counts.map(({ studentId }) => studentId)).toEqual([stayerId]);
  expect(counts.checks.map(({ studentId }) => studentId)).toEqual([stayerId, stayerId]);
});

test("8. a name inside a longer word is not that name", () => {
  const store = temporaryStore();
  const { leaverId, sessionIds } = fill(store);
  const [sessionId = ""] = sessionIds;
  const stamp = { atMs: 0, wallMs: monday, offsetMinutes: 0 };
  const text = "Pine, pineapple, Pines, (Pine) and Pine";
  store.students.update(leaverId, { name: "Pine" });
  store.log.append(sessionId, { kind: "note", text }, stamp);
  store.eraseStudent(leaverId);
  expect(store.log.lastEvent(sessionId)?.body).toEqual({
    kind: "note",
    text: "…, pineapple, Pines, (…) and …",
  });
});

test("9. removing a group leaves nothing of it and touches no other", () => {
  const store = temporaryStore();
  const { groupId } = fill(store);
  const other = fill(store);
  expect(store.removeGroup(groupId)).toEqual({ students: 2 });
  expect(store.groups.get(groupId)).toBeNull();
  expect(store.sessions.list(groupId, 10)).toEqual([]);
  expect(store.students.listAll(groupId)).toEqual([]);
  expect(store.phases.list(groupId)).toEqual([]);
  expect(store.teams.rounds(groupId)).toEqual([]);
  expect(store.pairLessons.list(groupId)).toEqual([]);
  expect(store.counts.ofGroup(other.groupId).sessions).toHaveLength(2);
});

test("12. whatever the teacher named in the group's own words is named no more", () => {
  const folder = temporaryFolder();
  const store = temporaryStore(folder);
  const { groupId, leaverId, stayerId } = fill(store);
  const settings = { ...firstPlan, subject: `Sums with ${gone}` };
  const plan = store.plans.create({ groupId, name: `Beside ${gone}`, settings }, monday);
  store.sessions.create({
    groupId,
    kind: "seatwork",
    planName: plan.name,
    plan: settings,
    seed: "named",
    startedMs: monday + 3 * dayMs,
    offsetMinutes: 0,
    day: "2026-03-05",
  });
  const label = `Since ${gone} came`;
  store.phases.create(
    {
      groupId,
      studentId: null,
      kind: "intervention",
      label,
      startsOn: "2026-03-09",
      draw: null,
      probes: null,
    },
    monday,
  );
  store.groups.update(groupId, { name: `${gone}'s room`, target: `Work like ${gone}` });
  store.students.update(stayerId, { target: `Do not talk to ${gone}` });
  const timer = { groupId, name: `Sit beside ${gone}`, minutes: 5 };
  store.privileges.startTimer(timer, monday, monday);
  store.backUpIfDue();

  store.eraseStudent(leaverId);
  expect(filesWith(folder, gone)).toEqual([]);
  expect(store.groups.get(groupId)).toMatchObject({ name: "…'s room", target: "Work like …" });
  expect(store.students.get(stayerId)?.target).toBe("Do not talk to …");
  expect(store.plans.get(plan.id)).toMatchObject({
    name: "Beside …",
    settings: { ...settings, subject: "Sums with …" },
  });
  expect(store.sessions.list(groupId, 1)).toMatchObject([
    { planName: "Beside …", plan: { subject: "Sums with …" } },
  ]);
});

test("13. a name that is one of the app's own words breaks nothing", () => {
  const store = temporaryStore();
  const { leaverId, stayerId } = fill(store);
  store.students.update(leaverId, { name: "young" });
  store.eraseStudent(leaverId);
  expect(store.contracts.ofStudent(stayerId)[0]?.terms.wording).toBe("young");
});

test("14. a name that the student had before goes too, where a kept backup knows it", () => {
  const folder = temporaryFolder();
  let wallMs = monday;
  const store = temporaryStore(folder, () => wallMs);
  const { leaverId, sessionIds } = fill(store);
  const stamp = { atMs: 0, wallMs: monday, offsetMinutes: 0 };
  store.students.update(leaverId, { name: "Quokka Early" });
  store.log.append(sessionIds[0] ?? "", { kind: "note", text: "Quokka Early slept" }, stamp);
  store.backUpIfDue();
  store.students.update(leaverId, { name: gone });
  wallMs += dayMs;
  store.backUpIfDue();

  store.eraseStudent(leaverId);
  expect(filesWith(folder, "Quokka Early")).toEqual([]);
});

test("15. the papers of one who has left the group since name nobody who is gone", () => {
  const folder = temporaryFolder();
  const store = temporaryStore(folder);
  const { leaverId, stayerId } = fill(store);
  const { id } = store.groups.create({ name: "Room 5", target: "", isSample: false }, monday);
  store.students.move(stayerId, id, monday + dayMs);
  store.eraseStudent(leaverId);
  expect(store.familyWords.ofGroup(id)).toMatchObject([{ words: "Works well beside …" }]);
  expect(filesWith(folder, gone)).toEqual([]);
});
