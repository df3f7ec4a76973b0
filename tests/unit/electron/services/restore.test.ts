import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, expect, test } from "vitest";
import { type Desktop, openDesktop } from "../../../../electron/host/desktop.ts";
import { listBackups } from "../../../../electron/store/file/backup.ts";
import { contentsOf } from "../../../../electron/store/file/contents.ts";
import { addStudents } from "../../../setup/add-students.ts";
import { manualClock } from "../../../support/manual-clock.ts";

const context = { clientId: "page", signal: new AbortController().signal };
const used: { desktop: Desktop; folder: string }[] = [];

afterEach(async () => {
  for (const { desktop, folder } of used.splice(0)) {
    await desktop.close();
    rmSync(folder, { recursive: true, force: true });
  }
});

async function opened(folder: string, wallMs = Date.UTC(2026, 2, 2, 10)) {
  const clock = manualClock({ wallMs });
  const desktop = await openDesktop({ folder, clock, host: "loopback", version: "0" });
  used.push({ desktop, folder });
  return { desktop, handlers: desktop.handlers };
}

/** A class with a backup, and a session, a student and a group's new name that came after it. */
async function grownSince() {
  const folder = mkdtempSync(join(tmpdir(), "pebblechime-restore-"));
  const first = await opened(folder);
  const { id: groupId } = await first.handlers.groups.create(
    { name: "Maple", target: "" },
    context,
  );
  await addStudents(first.handlers, groupId, ["Ann"], context);
  // Closing makes the daily backup.
  await first.desktop.close();
  const now = await opened(folder, Date.UTC(2026, 2, 2, 11));
  const [plan] = await now.handlers.plans.list({ groupId }, context);
  const start = { groupId, planId: plan?.id ?? "", kind: "seatwork" } as const;
  const { id: sessionId } = await now.handlers.sessions.start(start, context);
  await now.handlers.sessions.end({ sessionId }, context);
  await addStudents(now.handlers, groupId, ["Bo"], context);
  const [backup] = (await now.handlers.care.backups(undefined, context)).backups;
  if (backup === undefined) throw new Error("no backup");
  return { folder, groupId, ...now, backup };
}

test("1. says of each backup what restoring it would lose", async () => {
  const { backup, handlers } = await grownSince();
  expect(backup).toMatchObject({
    name: "20260302T100000000Z-daily.pebblechime",
    taken: { day: "2026-03-02", wallMs: Date.UTC(2026, 2, 2, 10), offsetMinutes: 0 },
    kind: "daily",
    lost: { sessions: 1, students: 1, entries: 0 },
  });
  expect(await handlers.care.backups(undefined, context)).toMatchObject({ next: null });
});

test("2. restores at the next start, once, and keeps the replaced file", async () => {
  const { folder, groupId, desktop, handlers, backup } = await grownSince();
  await handlers.care.restoreNext({ name: backup.name }, context);
  expect(await handlers.care.backups(undefined, context)).toMatchObject({ next: backup.name });
  // Until then all goes on as it was.
  expect(await handlers.students.list({ groupId, archived: false }, context)).toHaveLength(2);
  await desktop.close();

  const later = await opened(folder);
  const names = async (of: typeof later) =>
    (await of.handlers.students.list({ groupId, archived: false }, context)).map(
      ({ name }) => name,
    );
  expect(await names(later)).toEqual(["Ann"]);
  expect(await later.handlers.care.state(undefined, context)).toMatchObject({
    restored: { backup: backup.name, done: true },
  });
  expect(readdirSync(folder).some((name) => name.startsWith("pebblechime-damaged"))).toBe(true);
  await addStudents(later.handlers, groupId, ["Cy"], context);
  await later.desktop.close();

  const again = await opened(folder);
  expect(await names(again)).toEqual(["Ann", "Cy"]);
  expect(await again.handlers.care.state(undefined, context)).toMatchObject({ restored: null });
});

test("3. copies everything to a folder elsewhere, checked, and refuses one that is none", async () => {
  const { folder, handlers } = await grownSince();
  const stick = mkdtempSync(join(tmpdir(), "pebblechime-stick-"));
  const { path } = await handlers.care.copyTo({ folder: stick }, context);
  expect(path).toBe(join(stick, "pebblechime-copy-20260302T110000000Z.pebblechime"));
  expect(contentsOf(path)).toMatchObject({ groups: 1, students: 2, sessions: 1 });
  const attempt = (to: string) =>
    (async () => handlers.care.copyTo({ folder: to }, context))().catch((error: unknown) => error);
  for (const to of ["stick", "./x", join(stick, "none")]) {
    expect(await attempt(to)).toMatchObject({ what: "folder" });
  }
  expect(await attempt(path)).toMatchObject({ values: { problem: "read-only" } });
  expect(readdirSync(stick)).toHaveLength(1);
  expect(folder).not.toBe(stick);
  rmSync(stick, { recursive: true });
});

test("4. is taken back before the next start", async () => {
  const { folder, groupId, desktop, handlers, backup } = await grownSince();
  await handlers.care.restoreNext({ name: backup.name }, context);
  await handlers.care.restoreNext({ name: null }, context);
  await desktop.close();
  const later = await opened(folder);
  expect(await later.handlers.students.list({ groupId, archived: false }, context)).toHaveLength(2);
});

test("5. does not take a broken backup, and one that breaks before the start changes nothing", async () => {
  const { folder, groupId, desktop, handlers, backup } = await grownSince();
  const [{ path } = { path: "" }] = listBackups(folder);
  const whole = readFileSync(path);
  const attempt = (name: string) =>
    (async () => handlers.care.restoreNext({ name }, context))().catch((error: unknown) => error);
  expect(await attempt("20200101T000000000Z-daily.sqlite")).toMatchObject({ what: "backup" });
  expect(await attempt("../pebblechime.sqlite")).toMatchObject({ what: "backup" });
  writeFileSync(path, whole.subarray(0, 9_000));
  // The backup is at fault, and the sentence must not say that of the data file.
  expect(await attempt(backup.name)).toMatchObject({
    code: "backup-damaged",
    message: expect.stringContaining("This backup is damaged"),
  });
  writeFileSync(path, "Dear parents");
  expect(await attempt(backup.name)).toMatchObject({ code: "backup-damaged" });
  expect((await handlers.care.backups(undefined, context)).backups[0]?.lost).toBeNull();

  writeFileSync(path, whole);
  await handlers.care.restoreNext({ name: backup.name }, context);
  writeFileSync(path, whole.subarray(0, 9_000));
  await desktop.close();
  const later = await opened(folder);
  expect(await later.handlers.students.list({ groupId, archived: false }, context)).toHaveLength(2);
  expect(await later.handlers.care.state(undefined, context)).toMatchObject({
    restored: { backup: backup.name, done: false },
  });
  expect(existsSync(join(folder, "restore-next.json"))).toBe(false);
});

test("6. a copy from a stick is taken among the backups, looked at and restored, without whoever was erased", async () => {
  const { folder, groupId, desktop, handlers } = await grownSince();
  const stick = mkdtempSync(join(tmpdir(), "pebblechime-stick-"));
  const { path } = await handlers.care.copyTo({ folder: stick }, context);
  const students = await handlers.students.list({ groupId, archived: false }, context);
  const bo = students.find(({ name }) => name === "Bo");
  await handlers.students.archive({ id: bo?.id ?? "" }, context);
  await handlers.students.erase({ id: bo?.id ?? "" }, context);
  await addStudents(handlers, groupId, ["Cy"], context);

  const { name } = await handlers.care.bring({ path }, context);
  expect(name).toBe("20260302T110000000Z-brought.pebblechime");
  const kept = listBackups(folder).find((each) => each.path.endsWith(name));
  expect(contentsOf(kept?.path ?? "")).toMatchObject({ students: 1 });
  expect(readFileSync(kept?.path ?? "").includes("Bo")).toBe(false);
  const { backups } = await handlers.care.backups(undefined, context);
  expect(backups.find((each) => each.name === name)).toMatchObject({
    kind: "brought",
    lost: { sessions: 0, students: 1 },
  });
  // The stick's copy is only read, and opening a kept backup brings nothing.
  expect(readdirSync(stick)).toHaveLength(1);
  expect(await handlers.care.bring({ path: kept?.path ?? "" }, context)).toEqual({ name });

  await handlers.care.restoreNext({ name }, context);
  await desktop.close();
  const later = await opened(folder);
  const left = await later.handlers.students.list({ groupId, archived: false }, context);
  expect(left.map((student) => student.name)).toEqual(["Ann"]);
  rmSync(stick, { recursive: true });
});

test("7. what is no backup is not brought, and backups of earlier versions still are", async () => {
  const { folder, handlers } = await grownSince();
  const stick = mkdtempSync(join(tmpdir(), "pebblechime-stick-"));
  const attempt = (path: string) =>
    (async () => handlers.care.bring({ path }, context))().catch((error: unknown) => error);
  const before = listBackups(folder).length;
  expect(await attempt(join(stick, "none.pebblechime"))).toMatchObject({ what: "backup" });
  expect(await attempt("none.pebblechime")).toMatchObject({ what: "backup" });
  const letter = join(stick, "letter.pebblechime");
  writeFileSync(letter, "Dear parents");
  expect(await attempt(letter)).toMatchObject({ code: "backup-unreadable" });
  expect(listBackups(folder)).toHaveLength(before);

  const { path } = await handlers.care.copyTo({ folder: stick }, context);
  const earlier = join(stick, "pebblechime-copy-20260301T090000000Z.sqlite");
  writeFileSync(earlier, readFileSync(path));
  expect(await attempt(earlier)).toEqual({ name: "20260301T090000000Z-brought.pebblechime" });
  for (const day of ["04", "05", "06", "07"]) {
    const copy = join(stick, `pebblechime-copy-202603${day}T090000000Z.pebblechime`);
    writeFileSync(copy, readFileSync(path));
    await attempt(copy);
  }
  // Three stay; where they came from they all are still.
  expect(listBackups(folder).filter(({ kind }) => kind === "brought")).toHaveLength(3);
  rmSync(stick, { recursive: true });
});
