import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { connection } from "../../electron/store/connection.ts";
import { studentIds } from "../../electron/store/event-row.ts";
import { openDatabase } from "../../electron/store/file/open-database.ts";
import { guarded, toStoreError } from "../../electron/store/file/store-error.ts";
import { groupRepository } from "../../electron/store/groups.ts";
import { sessionLogRepository } from "../../electron/store/session-log.ts";
import { sessionRepository } from "../../electron/store/sessions.ts";
import { openStore, StoreError } from "../../electron/store/store.ts";
import { studentRepository } from "../../electron/store/students.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import { monday, temporaryFolder } from "../unit/electron/store/temporary-folder.ts";

/** An open session on a connection whose disk can be made to fail. */
function openSession() {
  const bare = openDatabase(temporaryFolder(), monday);
  const open = connection(bare);
  const group = groupRepository(open).create({ name: "A", target: "", isSample: false }, monday);
  studentRepository(open).add(group.id, ["Pine"], monday);
  const session = sessionRepository(open).create({
    groupId: group.id,
    kind: "seatwork",
    planName: "First plan",
    plan: firstPlan,
    seed: "disk",
    startedMs: monday,
    offsetMinutes: 0,
    day: "2026-03-02",
  });
  return {
    bare,
    sessionId: session.id,
    log: guarded(sessionLogRepository(open, studentIds(open))),
  };
}

const stamp = { atMs: 0, wallMs: monday, offsetMinutes: 0 };
const note = { kind: "note", text: "x".repeat(900) } as const;

function errorOf(work: () => unknown): StoreError {
  try {
    work();
  } catch (error) {
    if (error instanceof StoreError) return error;
    throw error;
  }
  throw new Error("Nothing was thrown");
}

test("1. a full disk is told as such, keeps what was acknowledged, and writing goes on once there is room", () => {
  const { bare, sessionId, log } = openSession();
  // The file may grow by three pages more: SQLite then answers as it does when the disk is full.
  const pages = Number(bare.pragma("page_count", { simple: true }));
  bare.pragma(`max_page_count = ${pages + 3}`);
  let acknowledged = 0;
  const error = errorOf(() => {
    for (;;) acknowledged = log.append(sessionId, note, stamp).stamp.seq;
  });
  expect(error.problem).toBe("full");
  expect(error.message).toMatch(/disk is full.*Make some space/);
  expect(acknowledged).toBeGreaterThan(3);
  expect(log.lastEvent(sessionId)?.stamp.seq).toBe(acknowledged);
  expect(bare.inTransaction).toBe(false);
  bare.pragma("max_page_count = 100000");
  expect(log.append(sessionId, note, stamp).stamp.seq).toBe(acknowledged + 1);
  bare.close();
});

test("2. several events that do not fit are not half written", () => {
  const { bare, sessionId, log } = openSession();
  const pages = Number(bare.pragma("page_count", { simple: true }));
  bare.pragma(`max_page_count = ${pages + 3}`);
  const many = Array.from({ length: 100 }, () => note);
  expect(errorOf(() => log.appendAll(sessionId, many, stamp)).problem).toBe("full");
  expect(log.read(sessionId, 0)).toEqual([]);
  bare.close();
});

test("3. data that may not be written is told as such", () => {
  const { bare, sessionId, log } = openSession();
  bare.pragma("query_only = ON");
  const error = errorOf(() => log.append(sessionId, note, stamp));
  expect(error.problem).toBe("read-only");
  expect(error.message).toMatch(/cannot write to the data folder/);
  bare.close();
});

test("4. a data folder that cannot be made is told as such, with nothing left open", () => {
  const place = temporaryFolder();
  writeFileSync(join(place, "file"), "");
  mkdirSync(join(place, "taken", "lock.sqlite"), { recursive: true });
  const problemAt = (...path: string[]) =>
    errorOf(() => openStore({ folder: join(place, ...path), now: () => monday })).problem;
  expect(problemAt("file")).toBe("read-only");
  expect(problemAt("file", "data")).toBe("read-only");
  expect(problemAt("taken")).toBe("foreign");
});

test.each([
  ["ENOSPC", "full"],
  ["EROFS", "read-only"],
  ["EACCES", "read-only"],
])("5. the file system's %s is told like SQLite's own", (code, problem) => {
  const cause = Object.assign(new Error(code), { code });
  expect(toStoreError(cause)).toMatchObject({ problem, cause });
});

test("6. a mistake in the program is not dressed up as a failure of the disk", () => {
  const mistake = new TypeError("undefined is not a function");
  expect(toStoreError(mistake)).toBe(mistake);
});
