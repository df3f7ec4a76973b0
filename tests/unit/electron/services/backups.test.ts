import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, expect, test, vi } from "vitest";
import { type Desktop, openDesktop } from "../../../../electron/host/desktop.ts";
import { listBackups } from "../../../../electron/store/file/backup.ts";
import { addStudents } from "../../../setup/add-students.ts";
import { manualClock } from "../../../support/manual-clock.ts";

const context = { clientId: "page", signal: new AbortController().signal };
const minuteMs = 60_000;
const open: { desktop: Desktop; folder: string }[] = [];

afterEach(async () => {
  for (const { desktop, folder } of open.splice(0)) {
    await desktop.close();
    rmSync(folder, { recursive: true, force: true });
  }
  vi.restoreAllMocks();
});

/** A desktop with one student and a session of `minutes` that has just started. */
async function startedDesk(minutes = 20) {
  const folder = mkdtempSync(join(tmpdir(), "pebblechime-backups-"));
  const clock = manualClock();
  const desktop = await openDesktop({ folder, clock, host: "loopback", version: "0" });
  open.push({ desktop, folder });
  const { handlers } = desktop;
  const { id: groupId } = await handlers.groups.create({ name: "Maple", target: "" }, context);
  await addStudents(handlers, groupId, ["A"], context);
  const [plan] = await handlers.plans.list({ groupId }, context);
  if (plan === undefined) throw new Error("a group has a plan");
  const settings = { ...plan.settings, lengthSeconds: minutes * 60 };
  await handlers.plans.update({ ...plan, settings }, context);
  const start = { groupId, planId: plan.id, kind: "seatwork" } as const;
  const { id: sessionId } = await handlers.sessions.start(start, context);
  return { folder, clock, desktop, handlers, sessionId };
}

test("1. a session at the sixtieth second puts the backup off, and its end makes it", async () => {
  const { folder, clock, handlers, sessionId } = await startedDesk();
  clock.advance(5 * minuteMs);
  expect(listBackups(folder)).toEqual([]);
  await handlers.sessions.end({ sessionId }, context);
  clock.advance(10_000);
  expect(listBackups(folder)).toHaveLength(1);
});

test("2. closing makes the backup that is due, even in mid-session", async () => {
  const { folder, clock, desktop } = await startedDesk();
  clock.advance(2 * minuteMs);
  await desktop.close();
  expect(listBackups(folder)).toHaveLength(1);
});

test("3. a look that a session stood in the way of comes again in a minute", async () => {
  const { folder, clock, handlers, sessionId } = await startedDesk();
  clock.advance(1.5 * minuteMs);
  // Pausing is not ending: the look comes by itself once nothing is open any more.
  await handlers.sessions.pause({ sessionId }, context);
  clock.advance(2 * minuteMs);
  expect(listBackups(folder)).toEqual([]);
  await handlers.sessions.end({ sessionId }, context);
  clock.advance(minuteMs);
  expect(listBackups(folder)).toHaveLength(1);
});

test("4. tells when the last good backup was taken, in the computer's own zone", async () => {
  const { clock, handlers, sessionId } = await startedDesk();
  clock.setOffset(-600);
  expect(await handlers.care.state(undefined, context)).toMatchObject({
    backup: { last: null, problem: null },
  });
  await handlers.sessions.end({ sessionId }, context);
  clock.advance(5_000);
  // 12 January 2026, 9:00 UTC, ten hours behind.
  const wallMs = Date.UTC(2026, 0, 12, 9) + 5_000;
  expect(await handlers.care.state(undefined, context)).toMatchObject({
    backup: { last: { day: "2026-01-11", wallMs, offsetMinutes: -600 }, problem: null },
  });
});

test("5. a failed backup is told to every page, tried again in a minute, and forgotten when it works", async () => {
  const said = vi.spyOn(console, "error").mockImplementation(() => {});
  const { folder, clock, handlers, sessionId } = await startedDesk();
  const topics: string[] = [];
  const leaving = new AbortController();
  const following = (async () => {
    const asked = { ...context, signal: leaving.signal };
    for await (const change of handlers.app.changes({ after: null }, asked)) {
      topics.push(...change.topics);
    }
  })();
  await new Promise(setImmediate);
  topics.length = 0;
  // A file where the folder should be: nothing can be written there.
  writeFileSync(join(folder, "backups"), "");
  await handlers.sessions.end({ sessionId }, context);
  clock.advance(5_000);
  await new Promise(setImmediate);
  expect(topics).toContain("care");
  expect(await handlers.care.state(undefined, context)).toMatchObject({
    backup: { last: null, problem: "read-only" },
  });
  clock.advance(3 * minuteMs);
  expect(said).toHaveBeenCalledTimes(1);
  rmSync(join(folder, "backups"));
  clock.advance(minuteMs);
  expect(await handlers.care.state(undefined, context)).toMatchObject({
    backup: { last: { day: "2026-01-12" }, problem: null },
  });
  leaving.abort();
  await following;
});

test("6. a kept backup that is found broken does not count: another is made at once", async () => {
  const { folder, clock, desktop } = await startedDesk();
  await desktop.close();
  const [made] = listBackups(folder);
  if (made === undefined) throw new Error("no backup");
  writeFileSync(made.path, readFileSync(made.path).subarray(0, 9_000));
  const again = await openDesktop({ folder, clock, host: "loopback", version: "0" });
  open.push({ desktop: again, folder });
  clock.advance(2 * minuteMs);
  expect(listBackups(folder)).toHaveLength(2);
  expect(existsSync(made.path)).toBe(true);
  mkdirSync(join(folder, "backups"), { recursive: true });
  const { backup } = await again.handlers.care.state(undefined, context);
  expect(backup.last?.wallMs).toBe(listBackups(folder)[0]?.takenMs);
});
