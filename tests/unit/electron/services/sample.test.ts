import { readFileSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { expect, test } from "vitest";
import { databaseName } from "../../../../electron/store/file/backup.ts";
import { localDay } from "../../../../shared/calendar/local-day.ts";
import { standsFor, unanswered } from "../../../../shared/home/agreed.ts";
import { loggedCountsSchema } from "../../../../shared/record/group-counts.ts";
import { replay } from "../../../../shared/session/reduce.ts";
import { fitsNow, termMixing } from "../../../../shared/teams/kept-rounds.ts";
import { caller, openServices, refusalOf, type Services, wholeCounts } from "./services.ts";

const hourMs = 3_600_000;
/** Friday 27 March 2026, 15:00 in a school two hours ahead of UTC. */
const friday = Date.UTC(2026, 2, 27, 13);
const offsetMinutes = 120;

async function withSample(wallMs = friday) {
  const services = openServices({ wallMs, offsetMinutes });
  const { groupId } = await services.app.addSample({}, caller);
  return { services, groupId };
}

const sum = (column: readonly (number | null)[]): number =>
  column.reduce<number>((total, each) => total + (each ?? 0), 0);

async function countsOf(services: Services, groupId: string) {
  loggedCountsSchema.parse(await services.analysis.counts({ groupId }, caller));
  return wholeCounts(services, groupId);
}

test("1. an invented class, labelled so, with eight students and five school weeks", async () => {
  const { services, groupId } = await withSample();
  const { group, students, sessions, phases, today } = await countsOf(services, groupId);
  expect(group).toMatchObject({ isSample: true, studentCount: 8 });
  expect(group.name).toMatch(/invented/);
  expect(students).toHaveLength(8);
  expect(sessions).toHaveLength(23);
  expect(today).toBe("2026-03-27");
  expect(phases.map(({ kind, startsOn }) => [kind, startsOn])).toEqual([
    ["baseline", sessions[0]?.day],
    ["intervention", sessions[5]?.day],
  ]);
  expect((await services.app.info({}, caller)).hasSample).toBe(true);
});

test("2. its sessions are over before now, on school days, in school hours, in order", async () => {
  const { services, groupId } = await withSample();
  const { sessions } = await countsOf(services, groupId);
  const starts = sessions.map(({ startedMs }) => startedMs);
  expect(starts).toEqual(starts.toSorted((a, b) => a - b));
  for (const { startedMs, day, offsetMinutes: offset } of sessions) {
    const local = new Date(startedMs + offset * 60_000);
    expect([1, 2, 3, 4, 5]).toContain(local.getUTCDay());
    expect(local.getUTCHours()).toBeGreaterThanOrEqual(9);
    expect(local.getUTCHours()).toBeLessThan(11);
    expect(day).toBe(localDay(startedMs, offset));
    expect(startedMs + 1_200_000).toBeLessThanOrEqual(friday);
  }
  expect(sessions.at(-1)?.day).toBe("2026-03-27");
  expect(sessions[0]?.day).toBe("2026-02-23");
});

test("3. early on a day, that day has no session yet", async () => {
  const { services, groupId } = await withSample(friday - 6 * hourMs);
  const { sessions } = await countsOf(services, groupId);
  expect(sessions.at(-1)?.day).toBe("2026-03-26");
});

test("4. baselines are observed, twice by two adults; later students record and are checked", async () => {
  const { services, groupId } = await withSample();
  const { sessions, counts, checks, observerPairs, work } = await countsOf(services, groupId);
  const baseline = sessions.filter(({ kind }) => kind === "baseline").length;
  expect(baseline).toBe(5);
  for (const { self, observer } of counts) {
    expect(self.on.slice(0, baseline).every((each) => each === null)).toBe(true);
    expect(observer.on.slice(baseline).every((each) => each === null)).toBe(true);
    expect(sum(self.on) + sum(self.off)).toBeGreaterThan(80);
    expect(sum(observer.on) + sum(observer.off)).toBeGreaterThan(20);
  }
  expect(new Set(observerPairs.map(({ sessionId }) => sessionId)).size).toBe(2);
  expect(checks.length).toBeGreaterThan(30);
  expect(work.length).toBeGreaterThan(20);
  // The teacher's note, and the interruption that she put into words.
  expect(sessions.filter(({ note }) => note !== "")).toHaveLength(2);
});

test("5. its numbers are plausible: most improve, nobody is perfect, some cues go unanswered", async () => {
  const { services, groupId } = await withSample();
  const { counts } = await countsOf(services, groupId);
  const rates = counts.map(({ self, observer }) => ({
    before: sum(observer.on) / (sum(observer.on) + sum(observer.off)),
    after: sum(self.on) / (sum(self.on) + sum(self.off)),
  }));
  expect(rates.filter(({ before, after }) => after > before).length).toBeGreaterThanOrEqual(6);
  for (const { before, after } of rates) {
    expect(before).toBeGreaterThan(0.1);
    expect(after).toBeLessThan(0.97);
  }
  const missing = counts.map(({ self }) => sum(self.missing));
  expect(Math.min(...missing)).toBeGreaterThan(0);
});

test("10. what was agreed, home cards and a contract are there, in the class's own language", async () => {
  const { services, groupId } = await withSample();
  const { store } = services;
  const pages = store.agreed.ofGroup(groupId);
  expect(pages.map(({ said }) => unanswered(said))).toEqual(pages.map(() => []));
  expect(pages.filter(({ said }) => standsFor(said, "taken")?.answer === "no")).toHaveLength(1);
  const withCard = pages.filter(({ studentId }) => store.homeCards.versions(studentId).length > 0);
  expect(withCard).toHaveLength(2);
  for (const { studentId } of withCard) {
    const days = store.homeCards.days(studentId, "2026-03-01", "2026-03-27");
    expect(days.length).toBeGreaterThanOrEqual(5);
    expect(days.some(({ wentWell }) => wentWell !== "")).toBe(true);
    // Friday's card is still to be typed in.
    expect(days.at(-1)?.day).not.toBe("2026-03-27");
  }
  const [contract] = store.contracts.ofGroup(groupId);
  if (contract === undefined) throw new Error("No contract");
  const paid = store.ledger
    .allOf(contract.studentId)
    .filter(({ source }) => source === "contract")
    .map(({ amount }) => amount);
  expect(paid.length).toBeGreaterThan(0);
  expect(new Set(paid)).toEqual(new Set([2]));
  expect(store.contracts.closedDays(contract.id).length).toBeGreaterThanOrEqual(paid.length);
});

test("6. the log is one that a real session could have written", async () => {
  const { services, groupId } = await withSample();
  const { store } = services;
  for (const session of store.sessions.list(groupId, 100)) {
    const events = store.log.read(session.id, 0);
    const times = events.map(({ stamp }) => stamp.atMs);
    expect(times).toEqual(times.toSorted((a, b) => a - b));
    const state = replay(events);
    expect(state.status).toBe("ended");
    expect([...state.cues.values()].every(({ standing }) => standing !== "announced")).toBe(true);
  }
  expect(store.log.openSessionId()).toBeNull();
});

test("7. the same moment gives the same class", async () => {
  const { services: first, groupId: a } = await withSample();
  const { services: second, groupId: b } = await withSample();
  const plain = async (services: Services, groupId: string) =>
    (await countsOf(services, groupId)).counts.map(({ self, observer }) => ({ self, observer }));
  expect(await plain(first, a)).toEqual(await plain(second, b));
});

test("8. one call removes it and leaves nothing, and the teacher's own stays", async () => {
  const { services } = await withSample();
  const { app, groups, store } = services;
  const own = await groups.create({ name: "Room 4", target: "" }, caller);
  expect((await refusalOf(() => app.addSample({}, caller))).code).toBe("sample-present");
  expect(await app.removeSample({}, caller)).toEqual({ studentsRemoved: 8 });
  expect((await refusalOf(() => app.removeSample({}, caller))).code).toBe("sample-absent");
  expect((await app.info({}, caller)).hasSample).toBe(false);
  const path = join(store.folder, databaseName);
  store.close();
  const database = new Database(path, { readonly: true });
  const rows = (table: string) => database.prepare(`SELECT count(*) FROM ${table}`).pluck().get();
  const papers = ["agreed_answer", "student_paper", "home_card", "home_card_day", "contract"];
  const emptied = ["student", "session", "session_event", "phase", "erasure", ...papers];
  expect(emptied.map(rows)).toEqual(emptied.map(() => 0));
  expect(database.prepare("SELECT id FROM student_group").pluck().all()).toEqual([own.id]);
  expect(rows("plan")).toBe(1);
  database.close();
  expect(readFileSync(path).includes("Juniper")).toBe(false);
});

test("9. it stays while one of its sessions is open", async () => {
  const { services, groupId } = await withSample();
  const { store } = services;
  const [session] = store.sessions.list(groupId, 1);
  if (session === undefined) throw new Error("No session");
  const { id: _id, groupName: _name, ...facts } = session;
  store.sessions.create({ ...facts, startedMs: friday });
  const refusal = await refusalOf(() => services.app.removeSample({}, caller));
  expect(refusal.code).toBe("session-running");
});

// The affine geometry of three dimensions over two elements: 14 planes, of which each two points share three.
test("it has teams in which each two meet three times, and lessons in pairs", async () => {
  const { services, groupId } = await withSample();
  const { rounds, names, settings, teams } = await services.teams.state({ groupId }, caller);
  const students = await services.students.list({ groupId, archived: false }, caller);
  const ids = students.map(({ id }) => id);
  const { mixing, bound } = termMixing(rounds, ids);
  expect(mixing).toMatchObject({ mostMeetings: 3, fewestMates: 7, objective: 84 });
  expect(bound).toBe(84);
  expect(rounds.every((round) => fitsNow(round.teams, ids, settings?.size ?? 0, []))).toBe(true);
  expect(names).toEqual(["Lanterns", "Kites"]);
  expect(teams.map(({ studentIds }) => studentIds.length)).toEqual([4, 4]);
  const { lessons } = await services.pairs.state({ groupId }, caller);
  expect(lessons).toHaveLength(3);
});
