import { copyFileSync, existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import Database from "better-sqlite3";
import { expect, test } from "vitest";
import { CommandError } from "../../../../electron/commands/command.ts";
import { restore } from "../../../../electron/commands/restore.ts";
import { databaseName, listBackups } from "../../../../electron/store/file/backup.ts";
import { openStore } from "../../../../electron/store/store.ts";
import { makeClass } from "../store/make-class.ts";
import { monday, temporaryFolder, temporaryStore } from "../store/temporary-folder.ts";

const dayMs = 86_400_000;

/** Two backups, of Monday and of Tuesday, and a group renamed after both. */
function backedUp() {
  const folder = temporaryFolder();
  let wallMs = monday;
  const store = openStore({ folder, now: () => wallMs });
  const { groupId } = makeClass(store);
  store.backUpIfDue();
  store.groups.update(groupId, { name: "Tuesday" });
  wallMs += dayMs;
  store.backUpIfDue();
  store.groups.update(groupId, { name: "Later" });
  const close = () => store.close();
  const nameNow = () => temporaryStore(folder).groups.get(groupId)?.name;
  return { folder, store, groupId, close, nameNow };
}

async function run(...args: string[]): Promise<string> {
  let written = "";
  await restore.run(args, {
    write(text) {
      written += text;
    },
  });
  return written;
}

async function failure(...args: string[]): Promise<CommandError> {
  const error = await run(...args).catch((thrown: unknown) => thrown);
  if (error instanceof CommandError) return error;
  throw new Error(`expected a refusal, got ${String(error)}`);
}

test("1. lists what the data file and each backup hold, newest first", async () => {
  const { folder, close } = backedUp();
  close();
  const [newest] = listBackups(folder);
  writeFileSync(newest?.path ?? "", "broken");
  expect((await run("--data", folder, "--list")).split("\n")).toEqual([
    "The data file now: 1 group, 2 students, 1 session, the newest of 2026-03-02",
    "20260303T100000000Z-daily.pebblechime: damaged, or not a Pebblechime backup",
    "20260302T100000000Z-daily.pebblechime: 1 group, 2 students, 1 session, the newest of 2026-03-02",
    "",
  ]);
});

test("2. takes the newest good backup when none is named, and keeps the replaced file", async () => {
  const { folder, close, nameNow } = backedUp();
  close();
  const replaced = readFileSync(join(folder, databaseName));
  const said = await run("--data", folder);
  expect(said).toMatch(/^20260303T100000000Z-daily\.pebblechime is the data file now: 1 group/);
  const kept = /kept: (.*)/.exec(said)?.[1] ?? "";
  expect(basename(kept)).toMatch(/^pebblechime-damaged-/);
  expect(readFileSync(kept)).toEqual(replaced);
  expect(nameNow()).toBe("Tuesday");
});

test("3. takes the backup that is named, from the list or from elsewhere", async () => {
  const { folder, close, nameNow } = backedUp();
  close();
  const stick = join(temporaryFolder(), "copy.sqlite");
  copyFileSync(listBackups(folder)[1]?.path ?? "", stick);
  await run("--data", folder, "20260303T100000000Z-daily.pebblechime");
  await run("--data", folder, stick);
  expect(nameNow()).toBe("Room 4");
});

test("4. the log of the replaced file is never read into the backup, and is kept with its file", async () => {
  const { folder, store, groupId, close, nameNow } = backedUp();
  // A log with what no checkpoint has taken over, as a crash leaves it.
  const path = join(folder, databaseName);
  store.groups.update(groupId, { name: "Only in the log" });
  const log = readFileSync(`${path}-wal`);
  const file = readFileSync(path);
  close();
  writeFileSync(path, file);
  writeFileSync(`${path}-wal`, log);
  await run("--data", folder);
  expect(nameNow()).toBe("Tuesday");
  const kept = readdirSync(folder).filter((name) => name.startsWith("pebblechime-damaged"));
  expect(kept.some((name) => name.endsWith("-wal"))).toBe(true);
  const replaced = new Database(join(folder, kept.find((name) => name.endsWith(".sqlite")) ?? ""));
  expect(replaced.prepare("SELECT name FROM student_group").pluck().get()).toBe("Only in the log");
  replaced.close();
});

test("5. refuses while the app runs on the folder, and nothing changes", async () => {
  const { folder, close, nameNow } = backedUp();
  const error = await failure("--data", folder);
  expect(error.message).toMatch(/already running/);
  expect(error.exitCode).toBe(1);
  close();
  expect(nameNow()).toBe("Later");
});

test.each([
  [
    "broken",
    (path: string) => writeFileSync(path, readFileSync(path).subarray(0, 9_000)),
    /damaged/,
  ],
  ["another program's", (path: string) => rewrite(path, "application_id", 7), /not made by/],
  ["a newer version's", (path: string) => rewrite(path, "user_version", 9_999), /newer version/],
])(
  "6. refuses a backup that is %s, in words about the backup; nothing changes",
  async (_, spoil, words) => {
    const { folder, close, nameNow } = backedUp();
    close();
    const [backup] = listBackups(folder);
    spoil(backup?.path ?? "");
    const error = await failure("--data", folder, basename(backup?.path ?? ""));
    expect(error.message).toMatch(words);
    expect(error.message).toMatch(/nothing was changed/);
    expect(nameNow()).toBe("Later");
  },
);

function rewrite(path: string, pragma: string, value: number): void {
  const file = new Database(path);
  file.pragma(`${pragma} = ${value}`);
  file.close();
}

test("7. refuses words that make no sense, and makes no folder", async () => {
  const folder = temporaryFolder();
  const nowhere = join(folder, "nowhere");
  expect((await failure("--data", nowhere)).message).toMatch(/There is no folder/);
  expect(existsSync(nowhere)).toBe(false);
  expect((await failure("--data", folder)).message).toMatch(/no good backup/);
  expect((await failure("--data", folder, "--data", folder)).message).toMatch(/twice/);
  expect((await failure("--data", folder, "x.sqlite")).message).toMatch(/no backup x/);
  expect((await failure("--data", folder, "a", "b")).exitCode).toBe(2);
  expect((await failure("--data", folder, "--list", "a")).exitCode).toBe(2);
  expect((await failure("--data", folder, join(folder, databaseName))).message).toMatch(/itself/);
});
