import { expect, test } from "vitest";
import { Missing } from "../../../../electron/services/base/refusal.ts";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { addStudents } from "../../../setup/add-students.ts";
import { monday } from "../store/temporary-folder.ts";
import { caller, makeGroup, nobody, openServices, refusalOf, topicsOf } from "./services.ts";

const names = (students: readonly { name: string }[]) => students.map(({ name }) => name);

test("1. a new group has its first plan and nobody in it", async () => {
  const services = openServices();
  const { group } = await makeGroup(services);
  expect(group).toMatchObject({
    name: "Room 4",
    isSample: false,
    archived: false,
    studentCount: 0,
  });
  expect(await services.plans.list({ groupId: group.id }, caller)).toMatchObject([
    { groupId: group.id, name: "First plan", settings: firstPlan },
  ]);
});

test("2. the first plan is named in the teacher's language", async () => {
  const services = openServices();
  await services.app.saveSettings({ language: "es" }, caller);
  const { group } = await makeGroup(services);
  expect(names(await services.plans.list({ groupId: group.id }, caller))).toEqual(["Primer plan"]);
});

test("3. groups are renamed, archived, brought back and put in order", async () => {
  const services = openServices();
  const { groups } = services;
  const { group: a } = await makeGroup(services);
  const b = await groups.create({ name: "B", target: "" }, caller);
  const c = await groups.create({ name: "C", target: "" }, caller);
  expect(await groups.update({ id: a.id, name: " A " }, caller)).toMatchObject({
    name: "A",
    target: "Eyes on my work",
  });
  expect(await groups.update({ id: a.id, target: "" }, caller)).toMatchObject({ target: "" });
  await groups.reorder({ ids: [c.id, a.id] }, caller);
  expect(names(await groups.list({ archived: false }, caller))).toEqual(["C", "A", "B"]);
  await groups.archive({ id: b.id }, caller);
  expect(names(await groups.list({ archived: false }, caller))).toEqual(["C", "A"]);
  expect(await groups.list({ archived: true }, caller)).toMatchObject([
    { name: "B", archived: true },
  ]);
  await groups.restore({ id: b.id }, caller);
  expect(names(await groups.list({ archived: false }, caller))).toEqual(["C", "A", "B"]);
});

test("4. students are added in order and counted; archived ones are not", async () => {
  const services = openServices();
  const { group, students } = await makeGroup(services, ["Pine", "Otter", "Maple"]);
  const [pine, otter, maple] = students.map(({ id }) => id);
  if (pine === undefined || otter === undefined || maple === undefined) throw new Error("Missing");
  const listed = async (archived: boolean) =>
    names(await services.students.list({ groupId: group.id, archived }, caller));
  expect(await listed(false)).toEqual(["Pine", "Otter", "Maple"]);
  await services.students.reorder({ groupId: group.id, ids: [maple, pine, otter] }, caller);
  await services.students.archive({ id: pine }, caller);
  expect(await listed(false)).toEqual(["Maple", "Otter"]);
  expect(await listed(true)).toEqual(["Pine"]);
  expect(await services.groups.list({ archived: false }, caller)).toMatchObject([
    { studentCount: 2 },
  ]);
  await services.students.restore({ id: pine }, caller);
  expect(await listed(false)).toEqual(["Maple", "Pine", "Otter"]);
});

test("7. renaming to another's name is refused, keeping one's own is not", async () => {
  const services = openServices();
  const { students } = await makeGroup(services, ["Pine", "Otter"]);
  const [pine, otter] = students;
  if (pine === undefined || otter === undefined) throw new Error("Missing");
  const refusal = await refusalOf(() =>
    services.students.update({ id: otter.id, name: "PINE" }, caller),
  );
  expect(refusal).toMatchObject({ code: "name-taken", values: { name: "Pine" } });
  expect(await services.students.update({ id: pine.id, name: "pine" }, caller)).toMatchObject({
    name: "pine",
  });
  const { group: other } = await makeGroup(services, ["Pine"]);
  expect(other.id).not.toBe(pine.groupId);
});

test("9. a picture and a target of one's own are set and removed", async () => {
  const services = openServices();
  const { students } = await makeGroup(services, ["Pine"]);
  const id = students[0]?.id ?? "";
  const set = await services.students.update(
    { id, picture: "fox", target: "Pencil moving" },
    caller,
  );
  expect(set).toMatchObject({ name: "Pine", picture: "fox", target: "Pencil moving" });
  expect(await services.students.update({ id, picture: null, target: "" }, caller)).toMatchObject({
    picture: null,
    target: "",
  });
});

test("10. what is not there is named as missing", async () => {
  const { groups, students, plans, phases, analysis } = openServices();
  const calls = [
    () => groups.update({ id: nobody, name: "A" }, caller),
    () => groups.archive({ id: nobody }, caller),
    () => groups.reorder({ ids: [nobody] }, caller),
    () => students.update({ id: nobody, name: "A" }, caller),
    () => students.archive({ id: nobody }, caller),
    () => students.erase({ id: nobody }, caller),
    () => students.reorder({ groupId: nobody, ids: [] }, caller),
    () => plans.update({ id: nobody, name: "A", settings: firstPlan }, caller),
    () => plans.create({ groupId: nobody, name: "A", settings: firstPlan }, caller),
    () => plans.archive({ id: nobody }, caller),
    () => phases.remove({ id: nobody }, caller),
    () =>
      phases.update(
        { id: nobody, kind: "fading", label: "", startsOn: "2026-03-02", draw: null, probes: null },
        caller,
      ),
    () => analysis.counts({ groupId: nobody }, caller),
  ];
  for (const call of calls) expect(call).toThrow(Missing);
});

test("11. erasing says what was removed, and is refused while a session of the group is open", async () => {
  const services = openServices();
  const { group, students } = await makeGroup(services, ["Pine", "Otter"]);
  const id = students[0]?.id ?? "";
  const { store } = services;
  const session = store.sessions.create({
    groupId: group.id,
    kind: "seatwork",
    planName: "First plan",
    plan: firstPlan,
    seed: "erase",
    startedMs: monday,
    offsetMinutes: 0,
    day: "2026-03-02",
  });
  const stamp = { atMs: 0, wallMs: monday, offsetMinutes: 0 };
  store.log.append(session.id, { kind: "set-aside", studentId: id }, stamp);
  for (const call of [
    () => services.students.erase({ id }, caller),
    () => services.groups.archive({ id: group.id }, caller),
  ]) {
    expect((await refusalOf(call)).code).toBe("session-running");
  }
  store.log.append(session.id, { kind: "ended", reason: "teacher" }, stamp);
  store.backUpIfDue();
  expect(await services.students.erase({ id }, caller)).toEqual({ events: 1, backups: 1 });
  expect(store.students.get(id)).toBeNull();
});

test("12. each change tells what it touched", async () => {
  const services = openServices();
  const { group, students } = await makeGroup(services, ["Pine"]);
  const id = students[0]?.id ?? "";
  const { app, groups, plans, phases } = services;
  const phase = {
    groupId: group.id,
    studentId: null,
    kind: "baseline",
    label: "",
    draw: null,
    probes: null,
  } as const;
  const cases: [() => unknown, string[]][] = [
    [() => groups.update({ id: group.id, name: "New" }, caller), ["groups"]],
    [() => services.students.update({ id, name: "New" }, caller), ["students"]],
    [() => services.students.archive({ id }, caller), ["groups", "students"]],
    [() => app.saveSettings({ theme: "dark" }, caller), ["settings"]],
    [
      () => plans.create({ groupId: group.id, name: "B", settings: firstPlan }, caller),
      ["plans", "program", "points"],
    ],
    [() => phases.create({ ...phase, startsOn: "2026-03-02" }, caller), ["phases"]],
  ];
  for (const [work, topics] of cases) expect(await topicsOf(services, work)).toEqual(topics);
});

test("groups a year in the archive are asked about, and again the year after", async () => {
  const day = 86_400_000;
  const services = openServices();
  const { groups, clock } = services;
  const { group } = await makeGroup(services);
  await groups.create({ name: "In use", target: "" }, caller);
  await groups.archive({ id: group.id }, caller);
  clock.advance(364 * day);
  expect(await groups.longArchived(undefined, caller)).toEqual([]);
  clock.advance(2 * day);
  const { id, name } = group;
  expect(await groups.longArchived(undefined, caller)).toEqual([{ id, name, years: 1 }]);
  clock.advance(366 * day);
  expect(await groups.longArchived(undefined, caller)).toEqual([{ id, name, years: 2 }]);
  await groups.restore({ id }, caller);
  expect(await groups.longArchived(undefined, caller)).toEqual([]);
});

test("an archived group is kept until a day, which is said when it has come and never acted upon", async () => {
  const day = 86_400_000;
  const services = openServices();
  const { groups, students, clock } = services;
  const { group } = await makeGroup(services);
  const { id } = group;
  expect(await refusalOf(() => groups.keepUntil({ id, day: "2026-03-04" }, caller))).toMatchObject({
    code: "not-archived",
  });
  expect(await refusalOf(() => groups.erase({ id }, caller))).toMatchObject({
    code: "not-archived",
  });
  await groups.archive({ id }, caller);
  await groups.keepUntil({ id, day: "2026-03-04" }, caller);
  const kept = { id, until: "2026-03-04" };
  expect(await groups.kept(undefined, caller)).toEqual([{ ...kept, hasCome: false }]);
  clock.advance(2 * day);
  expect(await groups.kept(undefined, caller)).toEqual([{ ...kept, hasCome: true }]);
  // Who named a day is not asked after a year as well.
  clock.advance(400 * day);
  expect(await groups.longArchived(undefined, caller)).toEqual([]);
  expect(await groups.list({ archived: true }, caller)).toHaveLength(1);
  // Brought back it is in use, and the day is gone with the archive.
  await groups.restore({ id }, caller);
  await groups.archive({ id }, caller);
  expect(await groups.kept(undefined, caller)).toEqual([]);
  const count = (await students.list({ groupId: id, archived: false }, caller)).length;
  expect(await groups.erase({ id }, caller)).toMatchObject({ students: count });
  expect(await groups.list({ archived: true }, caller)).toEqual([]);
});

test("a student moves with all that is theirs, and the group that is left keeps its sessions", async () => {
  const services = openServices();
  const { groups, students, analysis, store, clock } = services;
  const { group: old, students: added } = await makeGroup(services, ["Ash", "Birch"]);
  const [ash, birch] = added;
  if (ash === undefined || birch === undefined) throw new Error("Nobody was added");
  const young = await groups.create({ name: "Room 5", target: "" }, caller);
  await addStudents(services, young.id, ["Cedar"], caller);
  const marksIn = (groupId: string, day: number, of: readonly string[]) => {
    const { id } = store.sessions.create({
      groupId,
      kind: "seatwork",
      planName: "First plan",
      plan: firstPlan,
      seed: "move",
      startedMs: clock.wallMs(),
      offsetMinutes: 0,
      day: `2026-03-0${day}`,
    });
    const heard = { kind: "delivered", cue: 1, by: "sound", latenessMs: 0, problem: null } as const;
    store.log.appendAll(
      id,
      [
        { kind: "begun" },
        heard,
        ...of.map((studentId) => {
          const facts = { studentId, cue: 1, value: "on", way: "screen", late: false } as const;
          return { kind: "mark", ...facts } as const;
        }),
        { kind: "ended", reason: "finished" },
      ],
      { atMs: 0, wallMs: clock.wallMs(), offsetMinutes: 0 },
    );
    return id;
  };
  clock.advance(60_000);
  const first = marksIn(old.id, 3, [ash.id, birch.id]);
  clock.advance(60_000);
  await students.update({ id: ash.id, holdGoal: 0.65 }, caller);
  expect(await students.move({ id: ash.id, groupId: young.id }, caller)).toMatchObject({
    groupId: young.id,
    holdGoal: 0.65,
    hasMoved: true,
  });
  clock.advance(60_000);
  const second = marksIn(young.id, 4, [ash.id]);
  marksIn(old.id, 5, [birch.id]);

  const names = async (groupId: string) =>
    (await students.list({ groupId, archived: false }, caller)).map(({ name }) => name);
  expect(await names(old.id)).toEqual(["Birch"]);
  expect(await names(young.id)).toEqual(["Cedar", "Ash"]);

  // The old group: Ash's mark of the first session, and nothing owed in the one after the move.
  const kept = await analysis.counts({ groupId: old.id }, caller);
  const ofAsh = kept.counts.find(({ studentId }) => studentId === ash.id);
  expect(ofAsh?.self).toEqual({ on: [1, null], off: [0, null], missing: [0, null] });
  expect(store.students.listAll(old.id).find(({ id }) => id === ash.id)).toMatchObject({
    archived: true,
  });
  // The new group: nothing of the time before.
  const now = await analysis.counts({ groupId: young.id }, caller);
  expect(now.sessions.map(({ id }) => id)).toEqual([second]);
  expect(now.counts.find(({ studentId }) => studentId === ash.id)?.self.on).toEqual([1]);
  // The student's own: both, and none that was held without Ash.
  const { logged: own } = await analysis.studentCounts({ studentId: ash.id }, caller);
  expect(own.sessions.map(({ id }) => id)).toEqual([first, second]);
  expect(own.counts).toHaveLength(1);
  expect(own.counts[0]?.self.on).toEqual([1, 1]);

  // And back again: both stretches count, each session once.
  clock.advance(60_000);
  await students.move({ id: ash.id, groupId: old.id }, caller);
  const { logged } = await analysis.studentCounts({ studentId: ash.id }, caller);
  expect(logged.sessions).toHaveLength(2);
  const again = await analysis.counts({ groupId: old.id }, caller);
  expect(again.counts.filter(({ studentId }) => studentId === ash.id)).toHaveLength(1);
  expect(again.counts.find(({ studentId }) => studentId === ash.id)?.self.on).toEqual([1, null]);
});

test("nobody moves to a name that is taken, out of the sample, or out of an open session", async () => {
  const services = openServices();
  const { groups, students, app, store, clock } = services;
  const { group, students: added } = await makeGroup(services, ["Ash"]);
  const [ash] = added;
  const young = await groups.create({ name: "Room 5", target: "" }, caller);
  await addStudents(services, young.id, ["ash"], caller);
  const move = async (id: string, groupId: string) => students.move({ id, groupId }, caller);
  await expect(move(ash?.id ?? "", young.id)).rejects.toThrow(/is called ash/);
  const { groupId } = await app.addSample({}, caller);
  await expect(move(ash?.id ?? "", groupId)).rejects.toThrow(/invented/);
  const third = await groups.create({ name: "Room 6", target: "" }, caller);
  const { id } = store.sessions.create({
    groupId: third.id,
    kind: "seatwork",
    planName: "First plan",
    plan: firstPlan,
    seed: "open",
    startedMs: clock.wallMs(),
    offsetMinutes: 0,
    day: "2026-03-03",
  });
  store.log.append(id, { kind: "begun" }, { atMs: 0, wallMs: clock.wallMs(), offsetMinutes: 0 });
  await expect(move(ash?.id ?? "", third.id)).rejects.toThrow(/still open/);
  expect(store.students.get(ash?.id ?? "")?.groupId).toBe(group.id);
});
