import { execFileSync, fork } from "node:child_process";
import { once } from "node:events";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { databaseName } from "../../electron/store/file/backup.ts";
import { lockFolder, removeRunning, writeRunning } from "../../electron/store/file/folder-lock.ts";
import { openStore, StoreError } from "../../electron/store/store.ts";
import { makeClass } from "../unit/electron/store/make-class.ts";
import {
  monday,
  temporaryFolder,
  temporaryStore,
} from "../unit/electron/store/temporary-folder.ts";

const now = () => monday;
const modeOf = (path: string): string => (statSync(path).mode & 0o777).toString(8);

/** What opening says, in one sentence; anything else than a StoreError fails the test. */
function refusal(folder: string): string {
  try {
    openStore({ folder, now }).close();
  } catch (error) {
    if (error instanceof StoreError) return error.problem;
    throw error;
  }
  return "opened";
}

describe("a lock that is damaged", () => {
  test.each([
    ["garbage", Buffer.from("no database at all".repeat(300))],
    ["512 zero bytes", Buffer.alloc(512)],
    ["4,096 zero bytes", Buffer.alloc(4_096)],
    ["one byte", Buffer.from("x")],
    ["a torn header", Buffer.from("SQLite format 3\0torn")],
  ])("1. is made anew when it holds %s: nothing is kept in it", (_, bytes) => {
    const folder = temporaryFolder();
    const first = openStore({ folder, now });
    const { groupId } = makeClass(first);
    first.close();
    writeFileSync(join(folder, "lock.sqlite"), bytes);
    const store = temporaryStore(folder);
    expect(store.groups.get(groupId)?.name).toBe("Room 4");
    expect(() => lockFolder(folder)).toThrow(/already running/);
  });
});

test("2. of two that start at once one opens, however often", async () => {
  const folder = temporaryFolder();
  const child = new URL("lock-child.ts", import.meta.url);
  const children = [0, 1, 2].map(() => fork(child, [folder], { stdio: "ignore" }));
  const tell = (word: string) =>
    Promise.all(
      children.map(async (one) => {
        const answered = once(one, "message");
        one.send(word);
        const [answer] = await answered;
        return String(answer);
      }),
    );
  await tell("let go");
  for (let round = 0; round < 12; round += 1) {
    expect((await tell("take")).toSorted()).toEqual(["folder-taken", "folder-taken", "opened"]);
    // Only now may the one that has the folder let it go.
    await tell("let go");
  }
  const gone = children.map((one) => once(one, "exit"));
  for (const one of children) one.disconnect();
  await Promise.all(gone);
}, 60_000);

describe("odd places for the data", () => {
  test("3. each is refused with a sentence of its own", () => {
    const place = temporaryFolder();
    writeFileSync(join(place, "file"), "");
    expect(refusal(join(place, "file"))).toBe("read-only");
    expect(refusal(join(place, "file", "inside"))).toBe("read-only");
    expect(refusal(join(place, "n".repeat(300)))).toBe("read-only");
    expect(refusal(join(place, ...Array.from({ length: 60 }, () => "n".repeat(100))))).toBe(
      "read-only",
    );
    const loop = join(place, "loop");
    symlinkSync(loop, loop);
    expect(refusal(loop)).toBe("read-only");
    if (process.platform === "linux") {
      expect(refusal("/proc")).toBe("read-only");
      expect(refusal("/proc/new-folder")).toBe("read-only");
      expect(refusal("/dev/null")).toBe("read-only");
    }
  });

  test.each([databaseName, "lock.sqlite"])(
    "4. a link in the place of %s is not followed",
    (name) => {
      const folder = temporaryFolder();
      const elsewhere = join(temporaryFolder(), "planted");
      symlinkSync(elsewhere, join(folder, name));
      expect(refusal(folder)).toBe("foreign");
      expect(existsSync(elsewhere)).toBe(false);
    },
  );

  test.skipIf(process.platform === "win32")(
    "5. a pipe in the place of the data file holds nothing up",
    () => {
      const folder = temporaryFolder();
      execFileSync("mkfifo", [join(folder, databaseName)]);
      expect(refusal(folder)).toBe("foreign");
    },
  );

  test("6. how to join a start is told where it can be, and is no reason not to start", () => {
    const folder = temporaryFolder();
    mkdirSync(join(folder, "running.json"));
    expect(() =>
      writeRunning(folder, { host: "loopback", address: "http://127.0.0.1:1", joinSecret: "s" }),
    ).not.toThrow();
    expect(() => removeRunning(folder)).not.toThrow();
  });
});

describe.skipIf(process.platform === "win32")("a folder that is open to others", () => {
  test("7. is closed, with its files, where only ours lie in it", () => {
    const folder = temporaryFolder();
    const first = openStore({ folder, now });
    makeClass(first);
    const backup = first.backUpIfDue() ?? "";
    first.close();
    for (const path of [join(folder, databaseName), join(folder, "lock.sqlite"), backup]) {
      chmodSync(path, 0o644);
    }
    chmodSync(join(folder, "backups"), 0o755);
    chmodSync(folder, 0o777);
    const store = temporaryStore(folder);
    expect(store.isOpenToOthers).toBe(false);
    expect(modeOf(folder)).toBe("700");
    expect(modeOf(join(folder, "backups"))).toBe("700");
    for (const path of [join(folder, databaseName), join(folder, "lock.sqlite"), backup]) {
      expect(modeOf(path)).toBe("600");
    }
  });

  test("8. is left as it is and said where it holds something else too", () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, "marks.ods"), "not ours");
    chmodSync(join(folder, "marks.ods"), 0o666);
    chmodSync(folder, 0o777);
    const store = temporaryStore(folder);
    expect(store.isOpenToOthers).toBe(true);
    expect(modeOf(folder)).toBe("777");
    expect(modeOf(join(folder, "marks.ods"))).toBe("666");
    expect(modeOf(join(folder, databaseName))).toBe("600");
    expect(readFileSync(join(folder, "marks.ods"), "utf8")).toBe("not ours");
  });
});
