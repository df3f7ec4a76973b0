import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, expect, test, vi } from "vitest";
import { type Desktop, openDesktop } from "../../electron/host/desktop.ts";
import { databaseName, restoreBackup } from "../../electron/store/file/backup.ts";
import { openStore } from "../../electron/store/store.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import type { SessionEventBody } from "../../shared/session/event.ts";
import { manualClock } from "../support/manual-clock.ts";
import {
  monday,
  temporaryFolder,
  temporaryStore,
} from "../unit/electron/store/temporary-folder.ts";

const context = { clientId: "page", signal: new AbortController().signal };
const desktops: Desktop[] = [];

afterEach(async () => {
  for (const desktop of desktops.splice(0)) await desktop.close();
  vi.restoreAllMocks();
});

/** Two sessions of a class; the second has a note that only it has, and may be open still. */
function twoSessions({ isOpen = false } = {}) {
  const folder = temporaryFolder();
  const store = openStore({ folder, now: () => monday });
  const group = store.groups.create({ name: "Maple", target: "", isSample: false }, monday);
  const [student] = store.students.add(group.id, ["Zebrafinch Quux"], monday);
  if (student === undefined) throw new Error("nobody was added");
  const ids = [0, 1].map((index) => {
    const { id } = store.sessions.create({
      groupId: group.id,
      kind: "seatwork",
      planName: "First plan",
      plan: firstPlan,
      seed: `seed ${index}`,
      startedMs: monday + index * 60_000,
      offsetMinutes: 0,
      day: "2026-03-02",
    });
    const marked = { studentId: student.id, cue: 1, way: "screen", late: false } as const;
    const bodies: SessionEventBody[] = [
      { kind: "begun" },
      { kind: "announced", cue: 1 },
      { kind: "delivered", cue: 1, by: "sound", latenessMs: 0, problem: null },
      { kind: "mark", ...marked, value: index === 0 ? "off" : "on" },
      { kind: "note", text: index === 0 ? "a quiet morning" : "Zebrafinch Quux was tired" },
    ];
    if (index === 0 || !isOpen) bodies.push({ kind: "ended", reason: "teacher" });
    store.log.appendAll(id, bodies, { atMs: 0, wallMs: monday, offsetMinutes: 0 });
    return id;
  });
  store.close();
  const [first = "", second = ""] = ids;
  return { folder, groupId: group.id, studentId: student.id, first, second };
}

/** One wrong byte on the disk, where `text` stands. */
function damage(folder: string, text: string, at: number, byte: string): void {
  const path = join(folder, databaseName);
  const bytes = readFileSync(path);
  const place = bytes.indexOf(text);
  if (place < 0 || bytes.indexOf(text, place + 1) >= 0)
    throw new Error(`"${text}" is not there once`);
  bytes.write(byte, place + at, "latin1");
  writeFileSync(path, bytes);
}
const inNote = `{"text":"Zebrafinch`;

async function opened(folder: string) {
  const clock = manualClock({ wallMs: monday + 3_600_000 });
  const desktop = await openDesktop({ folder, clock, host: "loopback", version: "0" });
  desktops.push(desktop);
  return { desktop, clock, handlers: desktop.handlers };
}

const attempt = (work: () => unknown): Promise<unknown> =>
  (async () => work())().catch((error: unknown) => error);

const entryDamaged = { code: "store-failed", values: { problem: "entry-damaged" } };

test("1. a damaged entry stops neither the group's analysis nor another session's records", async () => {
  const { folder, groupId, first, second } = twoSessions();
  damage(folder, inNote, 1, "z");
  const { handlers } = await opened(folder);
  const counts = await handlers.analysis.counts({ groupId }, context);
  expect(counts.sessions.map(({ id }) => id)).toEqual([first]);
  expect(await attempt(() => handlers.records.cards({ sessionId: second }, context))).toMatchObject(
    entryDamaged,
  );
  expect(await handlers.records.cards({ sessionId: first }, context)).toMatchObject({
    cuesDelivered: 1,
  });
  const watching = handlers.sessions.watch({ sessionId: second, after: 0 }, context);
  expect(await attempt(() => watching[Symbol.asyncIterator]().next())).toMatchObject(entryDamaged);
  expect(await handlers.sessions.list({ groupId, limit: 9 }, context)).toHaveLength(2);
  expect(await handlers.care.state(undefined, context)).toMatchObject({
    damaged: [{ sessionId: second, groupName: "Maple", day: "2026-03-02", entries: 1 }],
    passedOver: [],
  });
});

test("2. going on without the entry brings the rest of the session back, says so, and lasts", async () => {
  const { folder, groupId, first, second } = twoSessions();
  damage(folder, inNote, 1, "z");
  const { desktop, handlers } = await opened(folder);
  await handlers.analysis.counts({ groupId }, context);
  expect(await handlers.care.passOver({ sessionId: second }, context)).toEqual({ entries: 1 });
  expect(await handlers.care.passOver({ sessionId: second }, context)).toEqual({ entries: 0 });
  const said = {
    damaged: [],
    passedOver: [{ sessionId: second, groupName: "Maple", day: "2026-03-02", entries: 1 }],
  };
  expect(await handlers.care.state(undefined, context)).toMatchObject(said);
  await desktop.close();

  const { handlers: later } = await opened(folder);
  const counts = await later.analysis.counts({ groupId }, context);
  expect(counts.sessions.map(({ id, note }) => [id, note])).toEqual([
    [first, "a quiet morning"],
    [second, ""],
  ]);
  expect(counts.counts[0]?.self).toMatchObject({ on: [0, 1], off: [1, 0] });
  expect(await later.records.cards({ sessionId: second }, context)).toMatchObject({
    cuesDelivered: 1,
  });
  expect(await later.care.state(undefined, context)).toMatchObject(said);
});

test("3. an open session with a damaged entry lets the app start and another session begin", async () => {
  const { folder, groupId, second } = twoSessions({ isOpen: true });
  damage(folder, inNote, 1, "z");
  const { handlers } = await opened(folder);
  expect(await handlers.sessions.open(undefined, context)).toBeNull();
  const { damaged } = await handlers.care.state(undefined, context);
  expect(damaged).toMatchObject([{ sessionId: second, entries: 1 }]);
  const plan = await handlers.plans.create({ groupId, name: "Now", settings: firstPlan }, context);
  const start = { groupId, planId: plan.id, kind: "seatwork" } as const;
  const { id: sessionId } = await handlers.sessions.start(start, context);
  await handlers.sessions.end({ sessionId }, context);

  await handlers.care.passOver({ sessionId: second }, context);
  expect(await handlers.sessions.open(undefined, context)).toMatchObject({
    id: second,
    status: "interrupted",
    cuesDelivered: 1,
  });
  await handlers.sessions.end({ sessionId: second }, context);
  expect(await handlers.sessions.open(undefined, context)).toBeNull();
});

test("4. a damaged mark is not counted as one that was taken back", async () => {
  const { folder, groupId, first, second } = twoSessions();
  // The columns of a row lie side by side: the value, then the way.
  damage(folder, "onscreen", 1, "o");
  const { handlers } = await opened(folder);
  const counts = await handlers.analysis.counts({ groupId }, context);
  expect(counts.sessions.map(({ id }) => id)).toEqual([first]);
  await handlers.care.passOver({ sessionId: second }, context);
  const after = await handlers.analysis.counts({ groupId }, context);
  expect(after.counts[0]?.self).toMatchObject({ on: [0, 0], off: [1, 0], missing: [0, 1] });
});

test("5. a session whose plan is damaged is missing from lists and from no other's numbers", async () => {
  const { folder, groupId, first, second } = twoSessions();
  const path = join(folder, databaseName);
  const bytes = readFileSync(path);
  // Each session keeps its plan; the seed stands right behind it.
  const place = bytes.indexOf(`}seed 1`);
  bytes.write("x", place, "latin1");
  writeFileSync(path, bytes);
  const { handlers } = await opened(folder);
  expect(await handlers.sessions.onPaper({ days: 90 }, context)).toEqual([]);
  const listed = await handlers.sessions.list({ groupId, limit: 9 }, context);
  expect(listed.map(({ id }) => id)).toEqual([first]);
  const counts = await handlers.analysis.counts({ groupId }, context);
  expect(counts.sessions.map(({ id }) => id)).toEqual([first]);
  expect(await attempt(() => handlers.records.cards({ sessionId: second }, context))).toMatchObject(
    { code: "store-failed", values: { problem: "damaged" } },
  );
  expect(await handlers.care.state(undefined, context)).toMatchObject({
    damaged: [{ sessionId: second, entries: 0 }],
  });
});

test("6. nothing that was written is quoted in a log or in what a page is told", async () => {
  const said = vi.spyOn(console, "error").mockImplementation(() => {});
  const { folder, groupId, second } = twoSessions({ isOpen: true });
  damage(folder, inNote, 1, "z");
  const { clock, handlers } = await opened(folder);
  clock.advance(10_000);
  const told = [
    await attempt(() => handlers.records.cards({ sessionId: second }, context)),
    await attempt(() => handlers.sessions.end({ sessionId: second }, context)),
    await handlers.analysis.counts({ groupId }, context),
    await handlers.care.state(undefined, context),
  ];
  const all = JSON.stringify([...said.mock.calls, ...told.map(worded)]);
  expect(all).not.toMatch(/tired/);
});

const worded = (told: unknown): unknown =>
  told instanceof Error ? [told.message, told.stack, String(told.cause)] : told;

test("7. a damaged entry does not end the backups, and one that is restored has the same entry damaged", async () => {
  const { folder, groupId, second } = twoSessions();
  damage(folder, inNote, 1, "z");
  const store = openStore({ folder, now: () => monday });
  const backup = store.backUpIfDue();
  store.close();
  if (backup === null) throw new Error("no backup was made");
  restoreBackup(folder, backup, monday);
  const { handlers } = await opened(folder);
  await handlers.analysis.counts({ groupId }, context);
  expect(await handlers.care.state(undefined, context)).toMatchObject({
    damaged: [{ sessionId: second, entries: 1 }],
  });
});

test("8. a student is erased from a session with a damaged note, and nothing of the note stays", () => {
  const { folder, studentId } = twoSessions();
  damage(folder, inNote, 1, "z");
  const store = temporaryStore(folder);
  expect(store.eraseStudent(studentId)).not.toBeNull();
  store.close();
  expect(readFileSync(join(folder, databaseName)).includes("Zebrafinch")).toBe(false);
});
