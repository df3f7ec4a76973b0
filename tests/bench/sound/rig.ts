import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Sleep } from "./sound-source.ts";

const chromiums = ["chromium", "chromium-browser", "google-chrome"];
const needed = ["Xvfb", "openbox", "pulseaudio", "pactl", "parec", "ps"];

/** The commands this bench needs and does not find. */
export function missingTools(): string[] {
  const missing = needed.filter((name) => !found(name));
  return chromiums.some(found) ? missing : [...missing, "chromium"];
}

function found(name: string): boolean {
  return spawnSync("which", [name]).status === 0;
}

export const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

async function until<T>(what: string, look: () => T | null | Promise<T | null>): Promise<T> {
  for (let turn = 0; turn < 150; turn++) {
    const seen = await look();
    if (seen !== null) return seen;
    await pause(100);
  }
  throw new Error(`${what} did not come within 15 seconds.`);
}

/** Screens nobody sees and a sound server nobody hears, for one run of the bench. */
export interface Rig {
  /** A fresh browser with a screen and a sink of its own. */
  openBrowser(): Promise<Browser>;
  close(): void;
}

export async function openRig(): Promise<Rig> {
  const home = mkdtempSync(join(tmpdir(), "sound-bench-"));
  const children: ChildProcess[] = [];
  const firstDisplay = 90 + (process.pid % 900) * 10;
  const env = {
    ...process.env,
    HOME: home,
    XDG_RUNTIME_DIR: home,
    PULSE_RUNTIME_PATH: join(home, "pulse"),
    PULSE_SERVER: `unix:${join(home, "pulse", "native")}`,
  };
  const run = (command: string, args: string[], more: Record<string, string> = {}) => {
    const child = spawn(command, args, { env: { ...env, ...more }, stdio: "ignore" });
    children.push(child);
    return child;
  };
  run("pulseaudio", [
    "-n",
    "--daemonize=no",
    "--exit-idle-time=-1",
    "--disallow-exit",
    "--load=module-native-protocol-unix",
  ]);
  const pactl = (...args: string[]) => spawnSync("pactl", args, { env, encoding: "utf8" });
  await until("The sound server", () => (pactl("info").status === 0 ? true : null));

  let sinks = 0;
  return {
    async openBrowser() {
      sinks += 1;
      const sink = `bench${sinks}`;
      const made = pactl(
        "load-module",
        "module-null-sink",
        `sink_name=${sink}`,
        "rate=48000",
        "channels=2",
      );
      if (made.status !== 0) throw new Error(`No silent sink could be made: ${made.stderr}`);
      // A screen of its own too: a window that another one covers counts as hidden.
      const display = `:${firstDisplay + sinks}`;
      run("Xvfb", [display, "-screen", "0", "1280x800x24", "-nolisten", "tcp"]);
      await until("The screen", () =>
        existsSync(`/tmp/.X11-unix/X${display.slice(1)}`) ? true : null,
      );
      // Without a window manager a window that is minimised stays as it was.
      run("openbox", ["--sm-disable"], { DISPLAY: display });
      const folder = join(home, sink);
      const command = chromiums.find(found) ?? "chromium";
      const child = run(
        command,
        [
          ...(process.getuid?.() === 0 ? ["--no-sandbox"] : []),
          `--user-data-dir=${folder}`,
          "--remote-debugging-port=0",
          "--no-first-run",
          "--disable-background-networking",
          "--disable-component-update",
          "--disable-sync",
          "--disable-gpu",
          "--disable-dev-shm-usage",
          "about:blank",
        ],
        { PULSE_SINK: sink, DISPLAY: display },
      );
      const portFile = join(folder, "DevToolsActivePort");
      const address = await until("The browser", () => {
        const [port, path] = existsSync(portFile) ? readFileSync(portFile, "utf8").split("\n") : [];
        return port && path ? `ws://127.0.0.1:${port}${path}` : null;
      });
      return openBrowserOver(await connect(address), child, () => record(env, `${sink}.monitor`));
    },
    close() {
      for (const child of children.reverse()) child.kill();
      // The browser may still be writing its last files.
      setTimeout(() => rmSync(home, { recursive: true, force: true, maxRetries: 5 }), 1000);
    },
  };
}

export interface Browser {
  readonly process: ChildProcess;
  open(url: string): Promise<Page>;
  record(): Recorder;
  close(): void;
}

export interface Page {
  evaluate(expression: string): Promise<unknown>;
  /** A click by the user's own hand, as far as the page can tell. */
  click(x: number, y: number): Promise<void>;
  /** Another tab takes this one's place; resolves once the page says it is hidden. */
  hide(): Promise<void>;
  /** Minimises the page's window; resolves once the page says it is hidden. */
  minimise(): Promise<void>;
}

type Send = (method: string, params?: object, session?: string) => Promise<Record<string, unknown>>;

/** Raw DevTools protocol: test drivers keep pages visible and focused, which this bench must not. */
async function connect(address: string): Promise<Send> {
  const socket = new WebSocket(address);
  const waiting = new Map<
    number,
    { resolve: (r: Record<string, unknown>) => void; reject: (e: Error) => void }
  >();
  await new Promise((resolve, reject) => {
    socket.onopen = resolve;
    socket.onerror = () => reject(new Error("The browser does not answer."));
  });
  socket.onmessage = (message) => {
    const answer = JSON.parse(String(message.data));
    const call = waiting.get(answer.id);
    if (!call) return;
    waiting.delete(answer.id);
    if (answer.error) call.reject(new Error(answer.error.message));
    else call.resolve(answer.result);
  };
  let calls = 0;
  return (method, params = {}, sessionId) =>
    new Promise((resolve, reject) => {
      calls += 1;
      waiting.set(calls, { resolve, reject });
      socket.send(JSON.stringify({ id: calls, method, params, ...(sessionId && { sessionId }) }));
    });
}

function openBrowserOver(
  send: Send,
  process: ChildProcess,
  startRecording: () => Recorder,
): Browser {
  return {
    process,
    async open(url) {
      const { targetId } = await send("Target.createTarget", { url });
      const { sessionId } = await send("Target.attachToTarget", { targetId, flatten: true });
      const session = String(sessionId);
      const evaluate = async (expression: string) => {
        const answer = await send(
          "Runtime.evaluate",
          { expression, awaitPromise: true, returnByValue: true, userGesture: false },
          session,
        );
        if (answer.exceptionDetails) throw new Error(JSON.stringify(answer.exceptionDetails));
        return (answer.result as { value?: unknown }).value;
      };
      // While a page takes another's place there is nothing to ask.
      const state = () => evaluate("document.readyState").catch(() => null);
      await until("The page", async () => ((await state()) === "complete" ? true : null));
      const becomeHidden = () =>
        until("The page's being hidden", async () =>
          (await evaluate("document.visibilityState")) === "hidden" ? true : null,
        );
      return {
        evaluate,
        async click(x, y) {
          for (const type of ["mousePressed", "mouseReleased"]) {
            const params = { type, x, y, button: "left", clickCount: 1 };
            await send("Input.dispatchMouseEvent", params, session);
          }
        },
        async hide() {
          await send("Target.createTarget", { url: "about:blank" });
          await becomeHidden();
        },
        async minimise() {
          const { windowId } = await send("Browser.getWindowForTarget", { targetId });
          await send("Browser.setWindowBounds", { windowId, bounds: { windowState: "minimized" } });
          await becomeHidden();
        },
      };
    },
    record: startRecording,
    close: () => process.kill(),
  };
}

export interface Recorder {
  /** Stops, and gives what was heard, with the bench's own clock at its first sample. */
  stop(): Promise<{ samples: Int16Array; startedMs: number }>;
}

/** Records a sink's monitor. The clock of its first sample comes from the promptest block of all. */
function record(env: NodeJS.ProcessEnv, device: string): Recorder {
  const args = [
    "--device",
    device,
    "--format=s16le",
    "--rate=48000",
    "--channels=1",
    "--raw",
    "--latency-msec=10",
  ];
  const child = spawn("parec", args, { env, stdio: ["ignore", "pipe", "ignore"] });
  const blocks: Buffer[] = [];
  let bytes = 0;
  let startedMs = Number.POSITIVE_INFINITY;
  child.stdout.on("data", (block: Buffer) => {
    blocks.push(block);
    bytes += block.length;
    startedMs = Math.min(startedMs, performance.now() - bytes / 96);
  });
  return {
    async stop() {
      child.kill();
      await new Promise((resolve) => child.on("close", resolve));
      const whole = Buffer.concat(blocks);
      const samples = new Int16Array(
        whole.buffer.slice(whole.byteOffset, whole.byteOffset + (whole.length & ~1)),
      );
      return { samples, startedMs };
    },
  };
}

/** Stops these processes and all that they started, as when a lid is closed, and lets them go on later. */
export async function putToSleep(programs: readonly ChildProcess[], ms: number): Promise<Sleep> {
  const sleepers = programs.flatMap(({ pid }) => (pid === undefined ? [] : withDescendants(pid)));
  const signal = (name: "SIGSTOP" | "SIGCONT") => {
    const atMs = performance.now();
    for (const pid of sleepers) tell(pid, name);
    return atMs;
  };
  const stoppedMs = signal("SIGSTOP");
  await pause(ms);
  return { stoppedMs, wokeMs: signal("SIGCONT") };
}

function tell(pid: number, signal: "SIGSTOP" | "SIGCONT"): void {
  try {
    process.kill(pid, signal);
  } catch {
    // A browser ends some of its processes by itself; the others must not stay stopped for that.
  }
}

function withDescendants(pid: number): number[] {
  const children = spawnSync("ps", ["-o", "pid=", "--ppid", String(pid)], { encoding: "utf8" })
    .stdout.split("\n")
    .map(Number)
    .filter((child) => child > 0);
  return [pid, ...children.flatMap(withDescendants)];
}

/** Keeps two processor cores busy until it is stopped. */
export function beBusy(processes = 2): () => void {
  const loops = Array.from({ length: processes }, () =>
    spawn(process.execPath, ["-e", "for (;;) Math.sqrt(Math.random())"], { stdio: "ignore" }),
  );
  return () => {
    for (const loop of loops) loop.kill();
  };
}

/** Resident memory of programs and all that they started, in MB. */
export function memoryOf(programs: readonly ChildProcess[]): number {
  const pids = programs.flatMap(({ pid }) => (pid === undefined ? [] : withDescendants(pid)));
  const listed = spawnSync("ps", ["-o", "rss=", "-p", pids.join(",")], { encoding: "utf8" });
  return listed.stdout.split("\n").reduce((sum, line) => sum + Number(line), 0) / 1024;
}
