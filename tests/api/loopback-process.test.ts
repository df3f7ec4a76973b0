import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import {
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { WebSocket } from "ws";
import { newestVersion } from "../../electron/store/file/migrate.ts";
import { openStore } from "../../electron/store/store.ts";
import { enter } from "../../src/api/enter.ts";
import { entryLine, invitationIn } from "./support/carriers.ts";

// The built loopback host as a process of its own: `npm test` builds before these run.
const root = join(import.meta.dirname, "..", "..");
const program = join(root, "dist", "electron", "loopback.js");

interface Started {
  readonly child: ChildProcess;
  printed(): string;
  readonly ended: Promise<number | null>;
}

let folder: string;
let started: Started[] = [];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "pebblechime-process-"));
});
afterEach(async () => {
  for (const { child, ended } of started) {
    child.kill("SIGKILL");
    await ended;
  }
  started = [];
  rmSync(folder, { recursive: true, force: true });
});

function start(
  args: readonly string[] = ["--data", folder],
  { env = process.env, quiet = true } = {},
): Started {
  const child = spawn(process.execPath, [program, ...args, ...(quiet ? ["--quiet"] : [])], {
    stdio: ["ignore", "pipe", "pipe", "ipc"],
    env,
  });
  let printed = "";
  for (const stream of [child.stdout, child.stderr]) {
    stream?.setEncoding("utf8").on("data", (text: string) => {
      printed += text;
    });
  }
  const ended = once(child, "exit").then(([code]) => code as number | null);
  const one = { child, printed: () => printed, ended };
  started.push(one);
  return one;
}

async function addressOf(one: Started): Promise<string> {
  for (let tries = 0; tries < 600; tries += 1) {
    const found = /http:\/\/\S+/.exec(one.printed())?.[0];
    if (found !== undefined) return found;
    if (one.child.exitCode !== null) throw new Error(one.printed());
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  throw new Error(`No address: ${one.printed()}`);
}

/** Enters as the page does that opens an address. */
async function comeIn(address: string): Promise<void> {
  const { host, origin } = new URL(address);
  const socket = new WebSocket(`ws://${host}/api`, { origin });
  socket.on("error", () => undefined);
  await enter(entryLine(socket), invitationIn(address));
  socket.terminate();
}

function isListening(address: string): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(Number(new URL(address).port), "127.0.0.1");
    socket.on("connect", () => {
      socket.destroy();
      resolve(true);
    });
    socket.on("error", () => resolve(false));
  });
}

describe("the loopback host as a process", () => {
  it("prints an address that opens the page", async () => {
    const address = await addressOf(start());
    const page = await fetch(new URL("/", address));
    expect(page.status).toBe(200);
    expect(await page.text()).toContain("Pebblechime");
    await comeIn(address);
  });

  it("refuses data of a newer version with a sentence, and leaves it as it was", async () => {
    openStore({ folder, now: Date.now }).close();
    const file = join(folder, "pebblechime.sqlite");
    const database = new Database(file);
    database.pragma(`user_version = ${newestVersion + 1}`);
    database.close();
    const before = readFileSync(file);
    const one = start();
    expect(await one.ended).toBe(2);
    expect(one.printed()).toContain(
      "This data was saved by a newer version of Pebblechime. Install the newest version to open it.",
    );
    expect(readFileSync(file)).toEqual(before);
  });

  it("takes what a killed start left of the way to its page", async () => {
    writeFileSync(join(folder, "open-abcd1234.html"), "");
    writeFileSync(join(folder, "open-notes.html"), "");
    await addressOf(start());
    const left = readdirSync(folder).filter((name) => name.startsWith("open-"));
    expect(left).toEqual(["open-notes.html"]);
  });

  it.each(["SIGINT", "SIGTERM", "SIGHUP"] as const)("ends well on %s", async (signal) => {
    const one = start();
    const address = await addressOf(one);
    expect(existsSync(join(folder, "running.json"))).toBe(true);
    one.child.kill(signal);
    expect(await one.ended).toBe(0);
    expect(await isListening(address)).toBe(false);
    expect(existsSync(join(folder, "running.json"))).toBe(false);
    // The folder is free for the next.
    expect(await addressOf(start())).toContain("http://127.0.0.1:");
  });

  it("ends with the process that started it", async () => {
    const one = start();
    const address = await addressOf(one);
    one.child.disconnect();
    expect(await one.ended).toBe(0);
    expect(await isListening(address)).toBe(false);
  });

  it("joins on a second start with the same data: one more address of the first", async () => {
    const first = await addressOf(start());
    const second = start();
    const joined = await addressOf(second);
    expect(await second.ended).toBe(0);
    expect(second.printed()).toContain("is already running with this data");
    expect(new URL(joined).origin).toBe(new URL(first).origin);
    expect(joined).not.toBe(first);
    await comeIn(joined);
    await comeIn(first);
  });

  it("starts after a crash that left its traces", async () => {
    const one = start();
    await addressOf(one);
    one.child.kill("SIGKILL");
    await one.ended;
    expect(existsSync(join(folder, "running.json"))).toBe(true);
    expect(await addressOf(start())).toContain("http://127.0.0.1:");
  });

  it("keeps how to join to its owner", async () => {
    await addressOf(start());
    expect(statSync(join(folder, "running.json")).mode & 0o077).toBe(0);
  });

  it.each([
    [["--data"], "--data needs a folder."],
    [["--speed", "ten"], "--speed needs a number from 1 to 600."],
    [["--sampel"], '"--sampel" is not known.'],
  ])("refuses %j in one line", async (args, problem) => {
    const one = start(args);
    expect(await one.ended).toBe(2);
    const lines = one.printed().trim().split("\n");
    expect(lines).toHaveLength(1);
    expect(lines[0]).toContain(problem);
  });

  it("says plainly, and which it is, that a folder cannot be used", async () => {
    const one = start(["--data", "/dev/null/class"]);
    expect(await one.ended).not.toBe(0);
    expect(one.printed().trim()).toMatch(
      /^Pebblechime cannot write to the data folder\. .+ The folder is \/dev\/null\/class\.$/,
    );
  });

  // Where a browser is opened by a program that this can stand in for.
  it.skipIf(process.platform !== "linux")(
    "a second start that is stopped while its page is awaited leaves nothing behind",
    async () => {
      await addressOf(start());
      const program = join(folder, "xdg-open");
      writeFileSync(program, "#!/bin/sh\n", { mode: 0o700 });
      const { CI: _, SSH_CONNECTION: __, ...rest } = process.env;
      const env = { ...rest, DISPLAY: ":99", PATH: `${folder}:${process.env.PATH}` };
      const second = start(["--data", folder], { env, quiet: false });
      const files = () => readdirSync(folder).filter((name) => name.startsWith("open-"));
      await expect.poll(files, { timeout: 10_000 }).toHaveLength(1);
      second.child.kill("SIGTERM");
      expect(await second.ended).toBe(0);
      expect(files()).toEqual([]);
      expect(second.printed()).not.toContain("key=");
    },
  );
});
