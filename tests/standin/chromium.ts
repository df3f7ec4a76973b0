import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { Readable, Writable } from "node:stream";
import { setTimeout as pause } from "node:timers/promises";
import { withoutUnseenParts } from "../support/browser-switches.ts";
import { DevtoolsPipe } from "./cdp.ts";

export interface Chromium {
  readonly devtools: DevtoolsPipe;
  readonly process: ChildProcess;
  /** Where a second DevTools client, such as the test's, can join in. */
  readonly endpoint: string;
}

const quietSwitches = [
  "--headless",
  "--remote-debugging-pipe",
  "--remote-debugging-port=0",
  "--no-startup-window",
  "--no-first-run",
  "--no-default-browser-check",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-default-apps",
  "--disable-dev-shm-usage",
  "--disable-extensions",
  "--disable-popup-blocking",
  "--disable-search-engine-choice-screen",
  "--disable-sync",
  "--disable-back-forward-cache",
  "--disable-field-trial-config",
  "--disable-breakpad",
  "--hide-crash-restore-bubble",
  "--hide-scrollbars",
  "--force-color-profile=srgb",
  "--metrics-recording-only",
  "--password-store=basic",
  "--use-mock-keychain",
  "--ash-no-nudges",
  withoutUnseenParts,
  // As the app's own windows: not throttled while covered or hidden.
  "--disable-background-timer-throttling",
  "--disable-backgrounding-occluded-windows",
  "--disable-renderer-backgrounding",
  // Nothing a page asks for may leave this machine, and the app's host must never resolve.
  "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost",
];

/**
 * Starts Chromium without a window, under a DevTools pipe: it ends when this process ends.
 * @param profile its profile folder, kept between starts as Electron keeps its own
 * @param switches further command-line switches, such as those that the app appended
 */
export async function startChromium(
  executable: string,
  profile: string,
  switches: readonly string[],
): Promise<Chromium> {
  mkdirSync(profile, { recursive: true });
  const portFile = join(profile, "DevToolsActivePort");
  rmSync(portFile, { force: true });
  const isRoot = process.getuid?.() === 0;
  const child = spawn(
    executable,
    [
      ...quietSwitches,
      ...(isRoot ? ["--no-sandbox"] : []),
      `--user-data-dir=${profile}`,
      ...switches,
    ],
    { stdio: ["ignore", "ignore", "ignore", "pipe", "pipe"] },
  );
  const [, , , out, back] = child.stdio;
  if (!(out instanceof Writable) || !(back instanceof Readable)) {
    throw new Error("Chromium was started without its DevTools pipes.");
  }
  const devtools = new DevtoolsPipe(out, back);
  await devtools.browser.send("Target.setAutoAttach", {
    autoAttach: true,
    waitForDebuggerOnStart: true,
    flatten: true,
  });
  return { devtools, process: child, endpoint: await readEndpoint(portFile) };
}

async function readEndpoint(portFile: string): Promise<string> {
  for (let tries = 0; tries < 400; tries++) {
    const [port, path] = existsSync(portFile) ? readFileSync(portFile, "utf8").split("\n") : [];
    if (port !== undefined && path !== undefined) return `ws://127.0.0.1:${port}${path}`;
    await pause(25);
  }
  throw new Error("Chromium did not say where its DevTools listen.");
}
