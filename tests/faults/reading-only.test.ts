import { copyFileSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterEach, describe, expect, test } from "vitest";
import { type Desktop, openDesktop } from "../../electron/host/desktop.ts";
import { databaseName } from "../../electron/store/file/backup.ts";
import { withLog } from "../../electron/store/file/wal.ts";
import { openStore } from "../../electron/store/store.ts";
import { addStudents } from "../setup/add-students.ts";
import { manualClock } from "../support/manual-clock.ts";
import { makeClass } from "../unit/electron/store/make-class.ts";
import { monday, temporaryFolder } from "../unit/electron/store/temporary-folder.ts";

const context = { clientId: "page", signal: new AbortController().signal };
const desktops: Desktop[] = [];
afterEach(async () => {
  for (const desktop of desktops.splice(0)) await desktop.close();
});

// Checked against SQLite itself, which reads the same file and log in its own way.
describe("a data file with its log taken over", () => {
  /** A file whose log holds changes that no checkpoint has taken over, copied while in use. */
  function inUse() {
    const folder = temporaryFolder();
    const path = join(folder, "a.sqlite");
    const live = new Database(path);
    live.pragma("journal_mode = WAL");
    live.pragma("wal_autocheckpoint = 0");
    live.exec("CREATE TABLE word (n INTEGER PRIMARY KEY, text TEXT)");
    live.pragma("wal_checkpoint(TRUNCATE)");
    const insert = live.prepare("INSERT INTO word (text) VALUES (?)");
    for (let n = 0; n < 300; n += 1) insert.run(`${n} `.repeat(90));
    live.exec("DELETE FROM word WHERE n % 3 = 0; UPDATE word SET text = 'x' WHERE n % 7 = 0");
    const copy = join(temporaryFolder(), "a.sqlite");
    copyFileSync(path, copy);
    copyFileSync(`${path}-wal`, `${copy}-wal`);
    live.close();
    return { copy, file: readFileSync(copy), log: readFileSync(`${copy}-wal`) };
  }

  const wordsIn = (database: Database.Database): unknown[] => {
    const words = database.prepare("SELECT n, text FROM word ORDER BY n").all();
    expect(database.pragma("integrity_check", { simple: true })).toBe("ok");
    database.close();
    return words;
  };
  const bySqlite = (copy: string, log: Buffer): unknown[] => {
    writeFileSync(`${copy}-wal`, log);
    rmSync(`${copy}-shm`, { force: true });
    const file = readFileSync(copy);
    const words = wordsIn(new Database(copy));
    writeFileSync(copy, file);
    return words;
  };

  test("1. reads as SQLite reads it", () => {
    const { copy, file, log } = inUse();
    const words = wordsIn(new Database(withLog(file, log)));
    expect(words.length).toBe(200);
    expect(words).toEqual(bySqlite(copy, log));
  });

  test.each([0.999, 0.9, 0.5, 0.1, 0.01, 0])(
    "2. cut to %f of its length, the log ends where SQLite ends it",
    (share) => {
      const { copy, file, log } = inUse();
      const cut = log.subarray(0, Math.floor(log.length * share));
      expect(wordsIn(new Database(withLog(file, cut)))).toEqual(bySqlite(copy, cut));
    },
  );

  test.each([0.2, 0.5, 0.8])(
    "3. with a wrong byte at %f of it, the log ends where SQLite ends it",
    (share) => {
      const { copy, file, log } = inUse();
      const place = Math.floor(log.length * share);
      log.writeUInt8(log.readUInt8(place) ^ 4, place);
      expect(wordsIn(new Database(withLog(file, log)))).toEqual(bySqlite(copy, log));
    },
  );

  test("4. a log of another file, or what is none, changes nothing", () => {
    const { file } = inUse();
    expect(wordsIn(new Database(withLog(file, Buffer.alloc(50_000))))).toEqual([]);
    expect(wordsIn(new Database(withLog(file, Buffer.from("no log"))))).toEqual([]);
  });
});

/** A class whose newest change is in the log only, on a disk that lets SQLite make no file beside it. */
function unwritable() {
  const folder = temporaryFolder();
  const store = openStore({ folder, now: () => monday });
  const { groupId, sessionId } = makeClass(store);
  const stamp = { atMs: 0, wallMs: monday, offsetMinutes: 0 };
  store.log.append(sessionId, { kind: "begun" }, stamp);
  store.backUpIfDue();
  store.groups.update(groupId, { name: "Only in the log" });
  const other = store.groups.create({ name: "Other", target: "", isSample: false }, monday);
  const [elsewhere] = store.students.add(other.id, ["Elm"], monday);
  const path = join(folder, databaseName);
  const kept = [path, `${path}-wal`].map((name) => [name, readFileSync(name)] as const);
  store.close();
  for (const [name, bytes] of kept) writeFileSync(name, bytes);
  // A folder where the log's index should be: SQLite cannot open the file for writing nor for reading.
  mkdirSync(`${path}-shm`);
  return { folder, groupId, sessionId, otherStudent: elsewhere?.id ?? "" };
}

const bytesOf = (folder: string): readonly (readonly [string, string])[] =>
  readdirSync(folder, { recursive: true, encoding: "utf8", withFileTypes: true })
    .filter((each) => each.isFile())
    .map(({ parentPath, name }) => join(parentPath, name))
    .map((path) => [path, readFileSync(path).toString("base64")] as const);

async function opened(folder: string) {
  const clock = manualClock();
  const desktop = await openDesktop({
    folder,
    clock,
    host: "loopback",
    version: "0",
    sample: true,
  });
  desktops.push(desktop);
  return { desktop, clock, handlers: desktop.handlers };
}

describe("a start where nothing can be written", () => {
  test("5. shows everything, what is only in the log too, and says why nothing can be saved", async () => {
    const { folder, groupId } = unwritable();
    const { desktop, handlers } = await opened(folder);
    expect(desktop.readingOnly).toBe("read-only");
    const groups = await handlers.groups.list({ archived: false }, context);
    expect(groups.map(({ name }) => name)).toEqual(["Only in the log", "Other"]);
    expect(await handlers.sessions.list({ groupId, limit: 5 }, context)).toHaveLength(1);
    expect((await handlers.analysis.counts({ groupId }, context)).counts).toHaveLength(2);
    expect(await handlers.care.state(undefined, context)).toMatchObject({
      readingOnly: "read-only",
      backup: { last: { day: "2026-03-02" }, problem: null },
    });
  });

  test("6. refuses whatever would write, with one reason, and no byte on the disk changes", async () => {
    const { folder, sessionId, otherStudent, groupId } = unwritable();
    const before = bytesOf(folder);
    const { desktop, clock, handlers } = await opened(folder);
    const writing: readonly (readonly [string, () => unknown])[] = [
      ["a setting", () => handlers.app.saveSettings({ language: "es" }, context)],
      ["the sample", () => handlers.app.addSample(undefined, context)],
      ["a group", () => handlers.groups.create({ name: "New", target: "" }, context)],
      ["students", () => addStudents(handlers, groupId, ["Cy"], context)],
      ["an erasure", () => handlers.students.erase({ id: otherStudent }, context)],
      ["the end", () => handlers.sessions.end({ sessionId }, context)],
      ["a note", () => handlers.sessions.note({ sessionId, text: "x" }, context)],
      ["resuming", () => handlers.sessions.resume({ sessionId }, context)],
    ];
    for (const [what, write] of writing) {
      const said = await (async () => write())().catch((error: unknown) => error);
      expect(said, what).toMatchObject({
        code: "store-failed",
        values: { problem: "reading-only" },
      });
    }
    clock.advance(120_000);
    await desktop.close();
    expect(bytesOf(folder)).toEqual(before);
  });

  test("7. starts as usual once the disk is as it should be, with all that was there", async () => {
    const { folder, groupId } = unwritable();
    const { desktop } = await opened(folder);
    await desktop.close();
    rmSync(join(folder, `${databaseName}-shm`), { recursive: true });
    const { desktop: again, handlers } = await opened(folder);
    expect(again.readingOnly).toBeNull();
    const groups = await handlers.groups.list({ archived: false }, context);
    expect(groups.find(({ id }) => id === groupId)?.name).toBe("Only in the log");
  });
});

test("8. a start that fails half way leaves no work behind", async () => {
  const folder = temporaryFolder();
  const store = openStore({ folder, now: () => monday });
  const { sessionId } = makeClass(store);
  store.log.append(sessionId, { kind: "begun" }, { atMs: 0, wallMs: monday, offsetMinutes: 0 });
  store.close();
  // The open session cannot be settled: its log takes nothing more.
  const file = new Database(join(folder, databaseName));
  file.exec(`CREATE TRIGGER shut BEFORE INSERT ON session_event
    BEGIN SELECT RAISE (ABORT, 'shut'); END`);
  file.close();
  const clock = manualClock();
  const asked = { folder, clock, host: "loopback", version: "0" } as const;
  await expect(openDesktop(asked)).rejects.toMatchObject({ problem: "failed" });
  expect(clock.pending()).toBe(0);
  openStore({ folder, now: () => monday }).close();
});
