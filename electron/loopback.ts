import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { z } from "zod";
import { parseArguments, type StartArguments } from "./host/arguments.ts";
import { dataFolder } from "./host/data-folder.ts";
import { type Desktop, openDesktop } from "./host/desktop.ts";
import { seatsHosting, seatsWarning } from "./host/seats-hosting.ts";
import { startFailure } from "./host/start-failure.ts";
import { hasScreen, openFile } from "./loopback/browser.ts";
import { openLoopback } from "./loopback/host.ts";
import { joinRunning } from "./loopback/join.ts";
import { timing } from "./loopback/timing.ts";
import { removeOldWaysIn, showWayIn, type WayIn } from "./loopback/way-in.ts";
import { systemClock } from "./services/base/clock.ts";
import { removeRunning, writeRunning } from "./store/file/folder-lock.ts";
import { StoreError } from "./store/file/store-error.ts";

/** The built page lies beside the built desktop side. */
const appFolder = join(import.meta.dirname, "..", "app");
const seatsFolder = join(import.meta.dirname, "..", "seats");
const manifest = join(import.meta.dirname, "..", "..", "package.json");
/** The package of npm brings no scripts of the project. */
const isPackage = !existsSync(join(import.meta.dirname, "..", "..", "scripts"));

/** Runs the app for browsers on this machine until it is told to stop. */
async function run(asked: StartArguments, folder: string): Promise<void> {
  const step = timing(asked.timing);
  const desktop = await openOrJoin(folder, asked);
  if (desktop === null) return;
  step("data opened");
  if (desktop.readingOnly !== null) {
    say(`Open for reading only. ${new StoreError(desktop.readingOnly).message}`);
  }
  const warning = seatsWarning(asked, Date.now());
  if (warning !== null) say(warning);
  removeOldWaysIn(folder);
  const host = await openLoopback({
    handlers: desktop.handlers,
    appFolder,
    onConnect: () => step("page connected"),
  });
  writeRunning(folder, { host: "loopback", address: host.origin, joinSecret: host.joinSecret });
  step("listening");

  const stopping = new AbortController();
  stopOnce(async () => {
    stopping.abort();
    removeRunning(folder);
    await host.close();
    await desktop.close();
  });
  const address = host.invite();
  const shown = show({ address, hasCome: () => host.isSpent(address) }, folder, asked, stopping);
  say("Stop with Ctrl+C.");
  await shown;
}

/** The open data, or null when another start has it and was joined. */
async function openOrJoin(folder: string, asked: StartArguments): Promise<Desktop | null> {
  const { speed, sample } = asked;
  try {
    const clock = systemClock(speed);
    return await openDesktop({
      folder,
      clock,
      host: "loopback",
      version: version(),
      sample,
      speed,
      seats: seatsHosting(asked, seatsFolder),
    });
  } catch (error) {
    if (!(error instanceof StoreError) || error.problem !== "folder-taken") throw error;
    const joined = await joinRunning(folder);
    if (joined === null) throw error;
    say("Pebblechime is already running with this data; this opens another page of it.");
    const stopping = new AbortController();
    for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) {
      process.once(signal, () => stopping.abort());
    }
    await show(joined, folder, asked, stopping);
    return null;
  }
}

/** Opens a browser where there is one, and otherwise says where the page is. */
function show(
  way: WayIn,
  folder: string,
  { quiet }: StartArguments,
  stopping: AbortController,
): Promise<void> {
  return showWayIn(way, {
    folder,
    openFile: !quiet && hasScreen(process.platform, process.env) ? openFile : null,
    isTerminal: process.stdout.isTTY === true,
    say,
    stopped: stopping.signal,
  });
}

/** Stops on the first signal, and when the process that started this one goes away. */
function stopOnce(stop: () => Promise<void>): void {
  let stopping = false;
  const once = () => {
    if (stopping) return;
    stopping = true;
    stop().then(
      () => process.exit(0),
      (error: unknown) => fail(error, null),
    );
  };
  process.on("SIGINT", once);
  process.on("SIGTERM", once);
  process.on("SIGHUP", once);
  process.on("disconnect", once);
}

function version(): string {
  return z.object({ version: z.string() }).parse(JSON.parse(readFileSync(manifest, "utf8")))
    .version;
}

function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

function fail(error: unknown, folder: string | null): never {
  const { text, exitCode } = startFailure(error, folder, isPackage);
  process.stderr.write(`${text}\n`);
  process.exit(exitCode);
}

let folder: string | null = null;
try {
  const asked = parseArguments(process.argv.slice(2));
  folder = dataFolder(asked.data);
  await run(asked, folder);
} catch (error) {
  fail(error, folder);
}
