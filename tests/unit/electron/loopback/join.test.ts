import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, it } from "vitest";
import { openLoopback } from "../../../../electron/loopback/host.ts";
import { joinRunning } from "../../../../electron/loopback/join.ts";
import { writeRunning } from "../../../../electron/store/file/folder-lock.ts";
import { handlersWith } from "../../../api/support/fake-handlers.ts";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "pebblechime-join-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const quickly = { attempts: 2, pauseMs: 10 };

it("gets a fresh address from the start that holds the folder", async () => {
  const host = await openLoopback({ handlers: handlersWith({}), appFolder: folder });
  try {
    writeRunning(folder, { host: "loopback", address: host.origin, joinSecret: host.joinSecret });
    const joined = await joinRunning(folder, quickly);
    expect(joined?.address).toContain(`${host.origin}/#key=`);
    expect(await joined?.hasCome()).toBe(false);
    expect((await joinRunning(folder, quickly))?.address).not.toBe(joined?.address);
  } finally {
    await host.close();
  }
});

it("cannot join a start that runs in a window of its own", async () => {
  writeRunning(folder, { host: "electron", address: null, joinSecret: null });
  expect(await joinRunning(folder, quickly)).toBeNull();
});

it.each([
  ["another machine", { address: "http://evil.example:80", joinSecret: "s" }],
  ["a name that only looks local", { address: "http://127.0.0.1.evil.example", joinSecret: "s" }],
  ["a port where nothing is", { address: "http://127.0.0.1:9", joinSecret: "s" }],
  ["no address", { address: null, joinSecret: "s" }],
])("does not follow a file that points to %s", async (_, running) => {
  writeRunning(folder, { host: "loopback", ...running });
  expect(await joinRunning(folder, quickly)).toBeNull();
});

it("gives up on a file that cannot be read", async () => {
  writeFileSync(join(folder, "running.json"), "{");
  expect(await joinRunning(folder, quickly)).toBeNull();
});
