import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openingCommand } from "../../../../electron/loopback/browser.ts";
import { type Surroundings, showWayIn } from "../../../../electron/loopback/way-in.ts";

const key = "one-time-key";
const address = `http://127.0.0.1:4321/#key=${key}`;
const soon = { patienceMs: 60, giveUpMs: 60, lookMs: 5 };

let folder: string;
let said: string[];
let opened: string[];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "pebblechime-way-in-"));
  said = [];
  opened = [];
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const inTerminal = (more: Partial<Surroundings> = {}): Surroundings => ({
  folder,
  openFile: (file) => opened.push(file),
  isTerminal: true,
  say: (line) => said.push(line),
  ...more,
});

describe("the way to the page", () => {
  it.each(["linux", "darwin", "win32"])("hands a browser on %s a file and no key", (platform) => {
    const [program, words] = openingCommand(platform, "/data/open-1.html");
    expect([program, ...words].join(" ")).not.toMatch(/http|key/);
    expect(words.at(-1)).toBe("/data/open-1.html");
  });

  it("is a file that only its owner can read, which leads on to the address", async () => {
    let content = "";
    let mode = 0;
    const openFile = (file: string) => {
      opened.push(file);
      content = readFileSync(file, "utf8");
      mode = statSync(file).mode & 0o777;
    };
    await showWayIn({ address, hasCome: () => true }, inTerminal({ openFile }), soon);
    expect(opened).toHaveLength(1);
    expect(mode).toBe(0o600);
    expect(content).toContain(`content="0;url=${address}"`);
    expect(content).not.toContain("<script");
  });

  it("leaves neither file nor key behind when the page has come", async () => {
    await showWayIn({ address, hasCome: () => true }, inTerminal(), soon);
    expect(readdirSync(folder)).toEqual([]);
    expect(said.join()).not.toContain(key);
  });

  it("is the printed address when no page has come, as some browsers may not read the file", async () => {
    await showWayIn({ address, hasCome: () => false }, inTerminal(), soon);
    expect(said.join("\n")).toContain(`No page has come yet.`);
    expect(said).toContain(address);
    expect(readdirSync(folder)).toEqual([]);
  });

  it("writes no key where what is said is kept in a log", async () => {
    await showWayIn({ address, hasCome: () => false }, inTerminal({ isTerminal: false }), soon);
    expect(said.join()).not.toContain(key);
    expect(said).toContain(opened[0]);
  });

  it("is the printed address where there is no browser, or nothing can be written", async () => {
    await showWayIn({ address, hasCome: () => false }, inTerminal({ openFile: null }), soon);
    expect(said.join("\n")).toContain(address);
    said = [];
    const gone = inTerminal({ folder: join(folder, "gone") });
    await showWayIn({ address, hasCome: () => false }, gone, soon);
    expect(said.join("\n")).toContain(address);
    expect(opened).toEqual([]);
  });

  it("ends with the host, and takes its file along", async () => {
    const stopping = new AbortController();
    const patient = { patienceMs: 10_000, giveUpMs: 10_000, lookMs: 5 };
    const surroundings = inTerminal({ stopped: stopping.signal });
    const showing = showWayIn({ address, hasCome: () => false }, surroundings, patient);
    setTimeout(() => stopping.abort(), 20);
    await showing;
    expect(said.join()).not.toContain("No page");
    expect(readdirSync(folder)).toEqual([]);
  });
});
