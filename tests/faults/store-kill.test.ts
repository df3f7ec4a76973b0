import { type ChildProcessByStdio, spawn } from "node:child_process";
import { once } from "node:events";
import { join } from "node:path";
import { createInterface } from "node:readline";
import type { Readable } from "node:stream";
import { expect, test } from "vitest";
import { openStore, StoreError } from "../../electron/store/store.ts";
import {
  monday,
  temporaryFolder,
  temporaryStore,
} from "../unit/electron/store/temporary-folder.ts";

type Child = ChildProcessByStdio<null, Readable, null>;

function start(folder: string, task: "append" | "hold"): Child {
  const script = join(import.meta.dirname, "store-child.ts");
  return spawn(process.execPath, [script, folder, task], { stdio: ["ignore", "pipe", "inherit"] });
}

async function kill(child: Child): Promise<void> {
  const gone = once(child, "exit");
  child.kill("SIGKILL");
  await gone;
}

/** Lets a child append until it has told of so many marks, kills it, and returns what it told. */
async function appendUntilKilled(folder: string, marks: number) {
  const child = start(folder, "append");
  let sessionId = "";
  let acknowledged = 0;
  for await (const line of createInterface({ input: child.stdout })) {
    const [word, value = ""] = line.split(" ");
    if (word === "session") sessionId = value;
    if (word === "seq") acknowledged = Number(value);
    if (acknowledged === marks && !child.killed) child.kill("SIGKILL");
  }
  return { sessionId, acknowledged };
}

test.each([1, 40])(
  "1. killed in the middle of writing after %i marks, nothing acknowledged is lost",
  async (marks) => {
    const folder = temporaryFolder();
    const { sessionId, acknowledged } = await appendUntilKilled(folder, marks);
    expect(acknowledged).toBeGreaterThanOrEqual(marks);
    const store = temporaryStore(folder);
    const kept = store.log.read(sessionId, 0).map(({ stamp }) => stamp.seq);
    // One more may have been written and not yet told of; never fewer, and no gap.
    expect(kept.length).toBeGreaterThanOrEqual(acknowledged);
    expect(kept.length).toBeLessThanOrEqual(acknowledged + 1);
    expect(kept).toEqual(kept.map((_, index) => index + 1));
    expect(store.log.openSessionId()).toBe(sessionId);
  },
);

test("2. a second process is refused while the first lives, and let in once it was killed", async () => {
  const folder = temporaryFolder();
  const child = start(folder, "hold");
  await once(child.stdout, "data");
  let refused: unknown;
  try {
    openStore({ folder, now: () => monday });
  } catch (error) {
    refused = error;
  }
  await kill(child);
  expect(refused).toBeInstanceOf(StoreError);
  expect(refused).toMatchObject({ problem: "folder-taken" });
  temporaryStore(folder);
});

test("3. a second process that is refused says so and leaves the first one's data alone", async () => {
  const folder = temporaryFolder();
  const store = temporaryStore(folder);
  const { id } = store.groups.create({ name: "Room 4", target: "", isSample: false }, monday);
  const script = join(import.meta.dirname, "store-child.ts");
  const second = spawn(process.execPath, [script, folder, "append"], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let said = "";
  second.stderr.on("data", (bytes: Buffer) => {
    said += bytes.toString();
  });
  const [code] = await once(second, "close");
  expect(code).not.toBe(0);
  expect(said).toContain("already running with this data folder");
  expect(store.groups.list(false).map((group) => group.id)).toEqual([id]);
});
