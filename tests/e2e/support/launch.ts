import { type ChildProcess, fork, spawn } from "node:child_process";
import { once } from "node:events";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import type * as Electron from "electron";
import {
  type Browser,
  type BrowserContext,
  chromium,
  _electron as electronLauncher,
  type Page,
} from "playwright";
import { withoutUnseenPartsInPlaywright } from "../../support/browser-switches.ts";
import { built, chromiumProgram, electronProgram, root } from "./programs.ts";

export interface LaunchOptions {
  readonly dataFolder: string;
  /** Further words of the command line, such as `--sample`. */
  readonly args?: readonly string[];
  /** The folder that holds the built app; the checkout's own when left out. In Electron without effect. */
  readonly appFolder?: string;
  /** Which button to press in a dialog that comes before the window; in the stand-in only. */
  readonly firstButton?: number;
}

/** The app in its windows: in Electron, or in the stand-in where Electron's program is absent. */
export interface App {
  readonly kind: "electron" | "stand-in";
  /** The teacher's page, once it is there. */
  page(): Promise<Page>;
  /** The pages of all open windows. */
  windows(): Page[];
  /** The address under which a page of the app is shown here. */
  address(path: string): string;
  /** Runs a function of the test in the main process; it sees only what it is given. */
  evaluate<Result, Given>(
    run: (electron: typeof Electron, given: Given) => Result | Promise<Result>,
    given: Given,
  ): Promise<Result>;
  /** Chooses an item of the application menu. */
  chooseMenu(id: string): Promise<void>;
  /** What the system says about sleep, and of a locked screen. */
  power(event: "suspend" | "resume" | "lock-screen"): Promise<void>;
  /** Everything printed so far. */
  output(): string;
  /** Resolves to the exit code when the app has ended, null after a signal. */
  readonly ended: Promise<number | null>;
  /** Quits as the menu does; resolves when it has ended. */
  close(): Promise<void>;
  /** Ends it without warning, as a crash or a power cut would. */
  kill(): Promise<void>;
}

/** The app served to a browser on this machine. */
export interface LoopbackApp {
  readonly kind: "loopback";
  /** The host's process. */
  readonly pid: number;
  readonly context: BrowserContext;
  page(): Promise<Page>;
  windows(): Page[];
  output(): string;
  readonly ended: Promise<number | null>;
  /** Ends the host alone; its pages stay open and have lost their line. */
  loseHost(): Promise<void>;
  close(): Promise<void>;
  kill(): Promise<void>;
}

const startMs = 30_000;
let told = false;

/** Starts the built app: real Electron when its program is there, otherwise the stand-in. */
export async function launchApp(options: LaunchOptions): Promise<App> {
  const program = electronProgram();
  if (!told) {
    told = true;
    console.log(
      program === null
        ? "End-to-end tests run in the stand-in: Electron's program is not installed."
        : "End-to-end tests run in Electron.",
    );
  }
  return program === null || options.appFolder !== undefined
    ? launchStandIn(options)
    : launchElectron(program, options);
}

/** Starts the app once more against a folder that is in use; resolves to the exit code. */
export async function startAgain(options: LaunchOptions): Promise<number | null> {
  const program = electronProgram();
  const child =
    program === null
      ? forkStandIn(options)
      : spawn(program, [...rootSwitches(), root, ...ownArguments(options)], { stdio: "ignore" });
  return endOf(child);
}

async function launchElectron(program: string, options: LaunchOptions): Promise<App> {
  built("main.js");
  const electron = await electronLauncher.launch({
    executablePath: program,
    args: [...rootSwitches(), root, ...ownArguments(options)],
    cwd: root,
    timeout: startMs,
  });
  const child = electron.process();
  return shellApp({
    kind: "electron",
    origin: "pebblechime://app",
    child,
    pages: () => electron.windows(),
    // Playwright hands over the same module, typed from the same file.
    evaluate: (source, given) =>
      electron.evaluate(
        (module, { source, given }) => new Function(`return (${source})`)()(module, given),
        { source, given },
      ),
    kill: async () => {
      child.kill("SIGKILL");
    },
  });
}

async function launchStandIn(options: LaunchOptions): Promise<App> {
  const child = forkStandIn(options);
  const waiting = new Map<number, PromiseWithResolvers<unknown>>();
  const ready = Promise.withResolvers<{ endpoint: string; pid: number }>();
  child.on("message", (message: FromStandIn) => {
    if (message.kind === "ready") return ready.resolve(message);
    const asked = waiting.get(message.id);
    waiting.delete(message.id);
    if (message.kind === "result") asked?.resolve(message.value);
    else asked?.reject(new Error(message.message));
  });
  const failed = Promise.withResolvers<never>();
  failed.promise.catch(() => undefined);
  const printed = collect(child);
  child.on("exit", (code) => {
    const gone = new Error(`The app ended (code ${code}).\n${printed()}`);
    ready.reject(gone);
    failed.reject(gone);
    for (const { reject } of waiting.values()) reject(gone);
  });
  const { endpoint, pid } = await ready.promise;
  const connected = chromium.connectOverCDP(endpoint).catch(async (error: unknown) => {
    // The app may be ending, and what it printed says why.
    await Promise.race([failed.promise, pause(3_000)]);
    throw error;
  });
  const browser = await Promise.race([connected, failed.promise]);
  let lastId = 0;
  return shellApp({
    kind: "stand-in",
    origin: "https://app",
    child,
    printed,
    pages: () => browser.contexts().flatMap((context) => context.pages()),
    evaluate: (source, value) => {
      const asked = Promise.withResolvers<unknown>();
      waiting.set(++lastId, asked);
      child.send({ id: lastId, source, value });
      return asked.promise;
    },
    kill: async () => {
      child.kill("SIGKILL");
      await endBrowser(pid);
    },
  });
}

type FromStandIn =
  | { readonly kind: "ready"; readonly endpoint: string; readonly pid: number }
  | { readonly kind: "result"; readonly id: number; readonly value: unknown }
  | { readonly kind: "error"; readonly id: number; readonly message: string };

function forkStandIn(options: LaunchOptions): ChildProcess {
  return fork(
    join(root, "tests", "standin", "start.ts"),
    [chromiumProgram(), built("main.js", options.appFolder), ...ownArguments(options)],
    {
      cwd: root,
      silent: true,
      serialization: "advanced",
      execArgv: [],
      env: {
        ...process.env,
        ...(options.firstButton === undefined
          ? {}
          : { STANDIN_FIRST_BUTTON: String(options.firstButton) }),
      },
    },
  );
}

function ownArguments({ dataFolder, args = [] }: LaunchOptions): string[] {
  return ["--data", dataFolder, ...args];
}

/** Chromium's own sandbox refuses to run as root; the app's settings stay as they are. */
function rootSwitches(): string[] {
  return process.getuid?.() === 0 ? ["--no-sandbox"] : [];
}

interface Shell {
  readonly kind: App["kind"];
  readonly origin: string;
  readonly child: ChildProcess;
  readonly printed?: () => string;
  pages(): Page[];
  evaluate(source: string, given: unknown): Promise<unknown>;
  kill(): Promise<void>;
}

/** Everything that is the same in Electron and in the stand-in. */
function shellApp(shell: Shell): App {
  const output = shell.printed ?? collect(shell.child);
  const ended = endOf(shell.child);
  const ours = () => shell.pages().filter((page) => page.url().startsWith(`${shell.origin}/`));
  const evaluate = <Result, Given>(
    run: (electron: typeof Electron, given: Given) => Result | Promise<Result>,
    given: Given,
  ): Promise<Result> =>
    // The function returns what it is declared to; the text of it is what runs over there.
    shell.evaluate(String(run), given) as Promise<Result>;
  return {
    kind: shell.kind,
    output,
    ended,
    evaluate,
    address: (path) => `${shell.origin}${path}`,
    windows: ours,
    page: async () => {
      const isTeachers = (page: Page) => new URL(page.url()).pathname !== "/board";
      const page = await waitFor(() => ours().find(isTeachers), `the app's window\n${output()}`);
      await page.waitForLoadState();
      return page;
    },
    chooseMenu: (id) =>
      evaluate((electron, wanted) => {
        const item = electron.Menu.getApplicationMenu()?.getMenuItemById(wanted);
        if (!item) throw new Error(`The menu has no item "${wanted}".`);
        item.click();
      }, id),
    power: (event) =>
      evaluate((electron, wanted) => {
        electron.powerMonitor.emit(wanted);
      }, event),
    close: async () => {
      const quitting = evaluate((electron) => electron.app.quit(), null);
      await Promise.race([quitting.catch(() => undefined), ended]);
      await ended;
    },
    kill: async () => {
      await shell.kill();
      await ended;
    },
  };
}

/** The loopback host without a browser. */
export interface Host {
  /** The one-time address that lets a page in. */
  readonly address: string;
  readonly child: ChildProcess;
  output(): string;
  readonly ended: Promise<number | null>;
  close(): Promise<void>;
}

/** Starts the loopback host; any browser may open its address. */
export async function startHost(options: LaunchOptions): Promise<Host> {
  const child = spawn(
    process.execPath,
    [built("loopback.js", options.appFolder), ...ownArguments(options), "--quiet"],
    { cwd: root, stdio: ["ignore", "pipe", "pipe"] },
  );
  const output = collect(child);
  const ended = endOf(child);
  const address = await Promise.race([
    waitFor(() => /http:\/\/\S+/.exec(output())?.[0], "the loopback address"),
    ended.then((code) => {
      throw new Error(`The loopback host ended (code ${code}).\n${output()}`);
    }),
  ]);
  const close = async () => {
    child.kill("SIGTERM");
    await ended;
  };
  return { address, child, output, ended, close };
}

let kept: Promise<Browser> | null = null;
let isKept = false;

/**
 * Has all apps in a browser that are started from here on share one, each in a context of its own, which
 * goes with the app. One that was closed or has crashed is followed by a fresh one.
 *
 * @returns what closes it
 */
export function keepOneBrowser(): () => Promise<void> {
  isKept = true;
  return async () => {
    const last = kept;
    [kept, isKept] = [null, false];
    await (await last)?.close();
  };
}

async function browserForApp(): Promise<{ browser: Browser; letGo(): Promise<void> }> {
  if (!isKept) {
    const browser = await openBrowser();
    return { browser, letGo: () => browser.close() };
  }
  const last = await kept?.catch(() => null);
  if (!last?.isConnected()) kept = openBrowser();
  return { browser: await (kept ?? openBrowser()), letGo: async () => undefined };
}

async function openedIn(address: string) {
  const { browser, letGo } = await browserForApp();
  const context = await browser.newContext({ viewport: { width: 1366, height: 768 } });
  const first = await context.newPage();
  await first.goto(address);
  return { browser, letGo, context, first };
}

/** Starts the loopback host and opens its address in a browser. */
export async function launchLoopback(options: LaunchOptions): Promise<LoopbackApp> {
  const { address, child, output, ended } = await startHost(options);
  const { browser, letGo, context, first } = await openedIn(address).catch(async (error) => {
    // Else it would hold the folder against the next try.
    child.kill("SIGKILL");
    await ended;
    throw error;
  });
  const leave = async () => {
    // One whose browser is gone already has nothing to close.
    if (browser.isConnected()) await context.close();
    await letGo();
  };
  return {
    kind: "loopback",
    pid: child.pid ?? 0,
    context,
    output,
    ended,
    page: async () => first,
    windows: () => context.pages(),
    loseHost: async () => {
      child.kill("SIGKILL");
      await ended;
    },
    close: async () => {
      await leave();
      child.kill("SIGTERM");
      await ended;
    },
    kill: async () => {
      child.kill("SIGKILL");
      await ended;
      await leave();
    },
  };
}

/** A headless browser of the same kind as the app's windows. */
export function openBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath: chromiumProgram(),
    args: [
      ...rootSwitches(),
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      withoutUnseenPartsInPlaywright,
    ],
  });
}

function collect(child: ChildProcess): () => string {
  let printed = "";
  for (const stream of [child.stdout, child.stderr]) {
    stream?.setEncoding("utf8").on("data", (text: string) => {
      printed += text;
    });
  }
  return () => printed;
}

async function endOf(child: ChildProcess): Promise<number | null> {
  if (child.exitCode !== null || child.signalCode !== null) return child.exitCode;
  const [code]: (number | null)[] = await once(child, "exit");
  return code ?? null;
}

/** The windows of a killed app go with it; the next start needs their profile. */
async function endBrowser(pid: number): Promise<void> {
  if (isAlive(pid)) process.kill(pid, "SIGKILL");
  await waitFor(() => !isAlive(pid) || null, "the killed app's browser to end");
}

function isAlive(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch {
    return false;
  }
}

/** Asks again and again until there is something. */
export async function waitFor<Found>(
  look: () => Found | undefined | null | Promise<Found | undefined | null>,
  what: string,
  ms = startMs,
): Promise<Found> {
  const last = performance.now() + ms;
  for (;;) {
    const found = await look();
    if (found !== undefined && found !== null) return found;
    if (performance.now() > last) throw new Error(`Waited ${ms} ms in vain for ${what}.`);
    await pause(25);
  }
}
