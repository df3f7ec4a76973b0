import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, beforeAll, expect, it } from "vitest";
import { ledgerProblems } from "../../electron/services/points/invariant.ts";
import { repairSession } from "../../electron/services/points/repairing.ts";
import { settling } from "../../electron/services/points/settling.ts";
import { databaseName } from "../../electron/store/file/backup.ts";
import { openStore } from "../../electron/store/store.ts";
import { builtChild } from "./built-child.ts";

let child = "";
beforeAll(async () => {
  child = await builtChild("ledger-child");
});

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

function run(dieAt: number) {
  const folder = mkdtempSync(join(tmpdir(), "pebblechime-ledger-"));
  folders.push(folder);
  const { signal, stdout } = spawnSync(process.execPath, [child, folder, String(dieAt)], {
    encoding: "utf8",
  });
  const lines = stdout.trim().split("\n");
  return { folder, signal, lines };
}

it("a kill between what is appended and what it is worth leaves both or neither", () => {
  const whole = run(0);
  expect(whole.signal).toBeNull();
  const { entries }: { entries: number } = JSON.parse(whole.lines.at(-1) ?? "{}");
  expect(entries).toBeGreaterThan(20);
  for (let dieAt = 1; dieAt <= entries; dieAt++) {
    const { folder, signal, lines } = run(dieAt);
    expect(signal).toBe("SIGKILL");
    const acknowledged = lines.reduce((sum, line) => sum + Number(line), 0);
    const store = openStore({ folder, now: () => 0 });
    const [session] = store.sessions.list(null, 1);
    if (session === undefined) throw new Error("The session is gone");
    // Nothing acknowledged is lost, and nothing unacknowledged is half there.
    expect(store.log.read(session.id, 0)).toHaveLength(acknowledged);
    expect(store.ledger.settledSeq(session.id)).toBe(acknowledged);
    expect(settling(store).catchUpAll()).toBe(0);
    const isEnded = store.log.read(session.id, 0).some(({ body }) => body.kind === "ended");
    if (isEnded) expect(ledgerProblems(store, session.id)).toEqual([]);
    store.close();
  }
});

it("a log that is ahead of the ledger is caught up with at start, as if nothing had happened", () => {
  const { folder } = run(0);
  const store = openStore({ folder, now: () => 0 });
  const [session] = store.sessions.list(null, 1);
  if (session === undefined) throw new Error("The session is gone");
  const students = store.students.list(session.groupId, false);
  const total = { kind: "total", studentId: students[0]?.id ?? "", on: 4, off: 0 } as const;
  // Written past the ledger, as by a version that knew no points.
  const stamp = { atMs: 60_000, wallMs: session.startedMs + 60_000, offsetMinutes: 0 };
  store.log.append(session.id, { ...total, way: "paper" }, stamp);
  expect(ledgerProblems(store, session.id)).not.toEqual([]);
  expect(settling(store).catchUpAll()).toBe(1);
  expect(ledgerProblems(store, session.id)).toEqual([]);
  expect(settling(store).catchUpAll()).toBe(0);
  store.close();
});

it("a ledger that disagrees with its log is brought after it, without a change to what is written", () => {
  const { folder } = run(0);
  const store = openStore({ folder, now: () => 0 });
  const [session] = store.sessions.list(null, 1);
  if (session === undefined) throw new Error("The session is gone");
  const [first, second] = store.students.list(session.groupId, false);
  if (first === undefined || second === undefined) throw new Error("The students are gone");
  expect(repairSession(store, session.id)).toEqual([]);
  const balances = () => [first, second].map(({ id }) => store.ledger.balance(id));
  const before = balances();
  store.close();
  // As by a disk that lost entries, or a hand that wrote to the file: a rule overpaid, a press gone, a debt.
  const file = new Database(join(folder, databaseName));
  file.exec(`INSERT INTO erasure (open) VALUES (1);
    DELETE FROM ledger_entry WHERE source = 'press' AND number =
      (SELECT min(number) FROM ledger_entry WHERE source = 'press');
    DELETE FROM erasure;
    INSERT INTO ledger_entry (id, student_number, source, source_key, rule, revision, amount, due, forgiven,
      day, wall_ms, offset_minutes)
    SELECT '00000000-0000-7000-8000-000000000001', student_number, source, source_key, rule, 99, 7, 50, 0,
      day, wall_ms, offset_minutes FROM ledger_entry WHERE rule = 'mark' LIMIT 1;
    INSERT INTO ledger_entry (id, student_number, source, source_key, rule, revision, amount, forgiven, day,
      wall_ms, offset_minutes)
    SELECT '00000000-0000-7000-8000-000000000002', number, 'exchange',
      '00000000-0000-4000-8000-000000000001', 'exchange', 1, -500, 0, '2026-03-02', 0, 0
      FROM student WHERE id = '${second.id}'`);
  file.close();
  const opened = openStore({ folder, now: () => 0 });
  const entries = opened.ledger.ofGroup(session.groupId);
  expect(repairSession(opened, session.id).length).toBeGreaterThanOrEqual(3);
  expect(ledgerProblems(opened, session.id)).toEqual([]);
  expect(repairSession(opened, session.id)).toEqual([]);
  expect(opened.ledger.ofGroup(session.groupId).slice(0, entries.length)).toEqual(entries);
  expect(opened.ledger.balance(first.id)).toBe(before[0]);
  expect(opened.ledger.balance(second.id)).toBe(0);
  opened.close();
});
