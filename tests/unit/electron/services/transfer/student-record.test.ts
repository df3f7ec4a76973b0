import { expect, test } from "vitest";
import { Missing } from "../../../../../electron/services/base/refusal.ts";
import { studentRecordSchema } from "../../../../../shared/api/transfer.ts";
import type { ContractTerms } from "../../../../../shared/home/contract-terms.ts";
import type { HomeCard } from "../../../../../shared/home/kept-card.ts";
import { firstPlan } from "../../../../../shared/plan/plan.ts";
import type { SessionEventBody } from "../../../../../shared/session/event.ts";
import { addStudents } from "../../../../setup/add-students.ts";
import { caller, makeGroup, nobody, openServices, type Services } from "../services.ts";

function hold(services: Services, groupId: string, bodies: readonly SessionEventBody[]): string {
  const startedMs = services.clock.wallMs();
  const { id } = services.store.sessions.create({
    groupId,
    kind: "seatwork",
    planName: "First plan",
    plan: firstPlan,
    seed: "record",
    startedMs,
    offsetMinutes: 0,
    day: "2026-03-02",
  });
  const stamp = { atMs: 0, wallMs: startedMs, offsetMinutes: 0 };
  services.store.log.appendAll(id, [{ kind: "begun" }, ...bodies], stamp);
  services.store.log.append(id, { kind: "ended", reason: "finished" }, stamp);
  services.clock.advance(60_000);
  return id;
}

/** What was agreed, a home card that came back, and a contract, all of them naming Otter Quux. */
function addPapers({ store, clock }: Services, studentId: string): void {
  const id = `00000000-0000-7000-9000-${studentId.slice(-12)}`;
  const [nowMs, day] = [clock.wallMs(), "2026-03-02"];
  const said = { line: "cued", answer: "yes", day, who: "Father of Otter Quux" } as const;
  store.agreed.add(studentId, said, nowMs);
  store.agreed.changePaper(studentId, { reviewOn: "2026-06-01", cardStopped: true });
  const card: HomeCard = {
    goals: ["Work beside Otter Quux"],
    periods: ["Reading"],
    scale: { kind: "scale", goodEnd: "five", weights: [0, 5, 10, 15, 20] },
    homework: true,
    selfRecord: false,
  };
  store.homeCards.addVersion({ id, studentId, fromDay: day, card }, nowMs);
  const texts = { homework: "", wentWell: "Helped Otter Quux", tomorrow: "" };
  store.homeCards.addDay(studentId, { cardId: id, day, ratings: [4], ...texts }, nowMs);
  const terms: ContractTerms = {
    wording: "young",
    goal: { kind: "work", completed: 0.8, correct: null },
    points: 0,
    earns: "A game with Otter Quux",
    cost: 0,
    checkedBy: "Ms Reed",
  };
  const facts = { fromDay: day, reviewOn: "2026-03-16", signedOn: day, endedOn: null };
  store.contracts.add({ id, studentId, terms, ...facts }, nowMs);
  store.contracts.close({ id, contractId: id, studentId, day }, nowMs);
}

test("1. holds all that is kept about a student and nothing of another", async () => {
  const services = openServices();
  const { group, students } = await makeGroup(services, ["Pine", "Otter Quux"]);
  const [pine, otter] = students.map(({ id }) => id);
  if (pine === undefined || otter === undefined) throw new Error("Nobody was added");
  const marks = [pine, otter].map(
    (studentId) =>
      ({ kind: "mark", studentId, cue: 1, value: "on", way: "paper", late: false }) as const,
  );
  hold(services, group.id, [
    ...marks,
    { kind: "spot-check", studentId: otter, cue: 1, value: "off" },
    { kind: "note", text: "Pine sat beside Otter Quux." },
    { kind: "interruption", note: "Otter Quux fell ill" },
  ]);
  for (const studentId of [pine, otter]) {
    const phase = {
      groupId: group.id,
      studentId,
      kind: "baseline",
      label: "",
      draw: null,
      probes: null,
    } as const;
    await services.phases.create({ ...phase, startsOn: "2026-03-02" }, caller);
    const about = { groupId: group.id, studentId, accepted: true } as const;
    await services.advice.decide(
      { ...about, advice: "keep-going", note: "As with Otter Quux" },
      caller,
    );
  }
  for (const studentId of [pine, otter]) addPapers(services, studentId);
  services.clock.advance(1);
  const ofGroup = { groupId: group.id, studentId: null } as const;
  services.store.phases.create(
    {
      ...ofGroup,
      kind: "intervention",
      label: "Since Otter Quux came",
      startsOn: "2026-03-09",
      draw: null,
      probes: null,
    },
    services.clock.wallMs(),
  );
  await services.advice.decide(
    { ...ofGroup, advice: "keep-going", accepted: false, note: "For all" },
    caller,
  );
  await services.program.save(
    { groupId: group.id, goal: 0.85, stepMeansSeconds: [120, 240], place: 1 },
    caller,
  );
  await services.calendar.add(
    { firstDay: "2026-04-06", lastDay: "2026-04-10", label: "Spring" },
    caller,
  );
  const { record, next } = await services.transfer.studentRecord(
    { studentId: pine, from: 0 },
    caller,
  );
  expect(next).toBeNull();
  expect(studentRecordSchema.parse(JSON.parse(JSON.stringify(record)))).toEqual(record);
  expect(record.student.name).toBe("Pine");
  expect(record.sessions[0]?.events.map(({ body }) => body)).toEqual([
    { kind: "begun" },
    marks[0],
    { kind: "note", text: "Pine sat beside …." },
    { kind: "interruption", note: "… fell ill" },
    { kind: "ended", reason: "finished" },
  ]);
  expect(record.phases).toMatchObject([{ studentId: pine }]);
  expect(record.groupPhases).toMatchObject([{ studentId: null, label: "Since … came" }]);
  expect(record.decisions).toMatchObject([
    { studentId: null, note: "For all" },
    { studentId: pine, note: "As with …" },
  ]);
  expect(record.program).toMatchObject({ goal: 0.85, stepMeansSeconds: [120, 240], place: 1 });
  expect(record.plans).toMatchObject([{ name: "First plan", settings: firstPlan }]);
  expect(record.daysOff).toMatchObject([{ firstDay: "2026-04-06", label: "Spring" }]);
  expect(record.papers).toMatchObject({
    studentId: pine,
    agreed: [{ line: "cued", answer: "yes", who: "Father of …" }],
    reviewOn: "2026-06-01",
    homeCards: [{ card: { goals: ["Work beside …"] } }],
    homeCardDays: [{ ratings: [4], wentWell: "Helped …" }],
    contracts: [{ terms: { earns: "A game with …" }, closedDays: ["2026-03-02"] }],
  });
  // Why a card does not go home may be for the child's safety: no file that leaves says it.
  expect(JSON.stringify(record)).not.toMatch(/stopped/i);
  expect(JSON.stringify(record)).not.toContain("Otter");
  expect(JSON.stringify(record)).not.toContain(otter);
});

test("2. comes in pieces that fit into messages, together every session once", async () => {
  const services = openServices();
  const { group, students } = await makeGroup(services, ["Pine"]);
  const studentId = students[0]?.id ?? "";
  const bodies = Array.from(
    { length: 2_000 },
    (_, index) =>
      ({ kind: "delivered", cue: index + 1, by: "sound", latenessMs: 0, problem: null }) as const,
  );
  const held = Array.from({ length: 7 }, () => hold(services, group.id, bodies));
  const got: string[] = [];
  let pieces = 0;
  for (let from: number | null = 0; from !== null; pieces++) {
    const piece: Awaited<ReturnType<typeof services.transfer.studentRecord>> =
      await services.transfer.studentRecord({ studentId, from }, caller);
    expect(JSON.stringify(piece).length).toBeLessThan(2 * 1024 * 1024);
    got.push(...piece.record.sessions.map(({ session }) => session.id));
    from = piece.next;
  }
  expect(got).toEqual(held);
  expect(pieces).toBe(3);
});

test("3. sessions before the student came and after they left are not theirs", async () => {
  const services = openServices();
  const { group } = await makeGroup(services, ["Otter"]);
  hold(services, group.id, []);
  const [pine] = await addStudents(services, group.id, ["Pine"], caller);
  const during = hold(services, group.id, []);
  await services.students.archive({ id: pine?.id ?? "" }, caller);
  hold(services, group.id, []);
  const { record } = await services.transfer.studentRecord(
    { studentId: pine?.id ?? "", from: 0 },
    caller,
  );
  expect(record.sessions.map(({ session }) => session.id)).toEqual([during]);
  await expect(async () =>
    services.transfer.studentRecord({ studentId: nobody, from: 0 }, caller),
  ).rejects.toThrow(Missing);
});

test("teams, wishes and pairs are the student's own: how many others, and not who", async () => {
  const services = openServices();
  const { group, students } = await makeGroup(services, ["Pine", "Otter Quux", "Wren"]);
  const [pine = "", otter = "", wren = ""] = students.map(({ id }) => id);
  const groupId = group.id;
  const settings = { size: 3, rounds: 1, weekday: 1, goal: null, points: 0, isShown: false };
  await services.teams.saveSettings({ groupId, settings }, caller);
  await services.teams.saveNames({ groupId, names: ["Otter Quux and friends"] }, caller);
  const wishes = [
    { kind: "together" as const, studentIds: [pine, otter, wren] },
    { kind: "together" as const, studentIds: [otter, wren] },
  ];
  await services.teams.saveWishes({ groupId, wishes }, caller);
  await services.teams.deal({ groupId, deals: 0, rounds: [[[pine, otter, wren]]] }, caller);
  await services.pairs.begin({ groupId, absentIds: [wren], points: 0 }, caller);
  const { record } = await services.transfer.studentRecord({ studentId: pine, from: 0 }, caller);
  expect(record.together).toEqual({
    teams: [{ round: 1, startsOn: "2026-03-02", team: 1, name: "… and friends" }],
    wishes: [{ kind: "together", others: 2 }],
    pairs: [{ day: "2026-03-02", role: expect.stringMatching(/taught|learned/), corrected: false }],
  });
  expect(JSON.stringify(record.together)).not.toContain(otter);
});

test("who has moved leaves with the sessions, points and phases of every group, and nobody else's name", async () => {
  const services = openServices();
  const { group, students } = await makeGroup(services, ["Pine", "Otter Quux"]);
  const [pine = ""] = students.map(({ id }) => id);
  const mark = { kind: "mark", studentId: pine, cue: 1, value: "on", way: "paper" } as const;
  const earlier = hold(services, group.id, [
    { ...mark, late: false },
    { kind: "note", text: "Otter Quux helped" },
  ]);
  const phase = { groupId: group.id, kind: "baseline", draw: null, probes: null } as const;
  services.store.phases.create(
    { ...phase, studentId: pine, label: "Beside Otter Quux", startsOn: "2026-03-02" },
    services.clock.wallMs(),
  );
  const when = { day: "2026-03-02", wallMs: services.clock.wallMs(), offsetMinutes: 0 };
  services.store.ledger.add({
    ...{ studentId: pine, source: "session", sourceKey: earlier, rule: "mark", revision: 1 },
    ...{ amount: 1, due: 1, forgiven: 0, reverses: null, privilegeId: null, ...when },
  });
  const next = await services.groups.create({ name: "Room 5", target: "" }, caller);
  const before = hold(services, next.id, []);
  await services.students.move({ id: pine, groupId: next.id }, caller);
  const later = hold(services, next.id, []);
  const { record } = await services.transfer.studentRecord({ studentId: pine, from: 0 }, caller);
  expect(record.sessions.map(({ session }) => session.id)).toEqual([earlier, later]);
  expect(JSON.stringify(record)).not.toContain(before);
  expect(record.ledger).toMatchObject([{ source: "session", amount: 1 }]);
  expect(record.phases).toMatchObject([{ studentId: pine, label: "Beside …" }]);
  expect(JSON.stringify(record)).not.toContain("Otter");
});
