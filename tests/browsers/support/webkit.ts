import { type ChildProcess, spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { freePort } from "../../e2e/support/free-port.ts";
import type { Driver } from "./driver.ts";

const driverProgram = process.env.PEBBLECHIME_WEBKIT_DRIVER ?? "/usr/bin/WebKitWebDriver";
const screenProgram = "/usr/bin/Xvfb";
const answerMs = 30_000;
const places = ["/usr/lib/x86_64-linux-gnu", "/usr/lib/aarch64-linux-gnu", "/usr/libexec"];
const browserProgram = places
  .map((place) => `${place}/webkit2gtk-4.1/MiniBrowser`)
  .find((path) => existsSync(path));

/** Why WebKitGTK cannot be driven here, or null. */
export function noWebKit(): string | null {
  if (!existsSync(driverProgram) || browserProgram === undefined)
    return `${driverProgram} is not installed (Debian's package webkit2gtk-driver).`;
  if (process.env.DISPLAY === undefined && !existsSync(screenProgram))
    return "There is no screen to show WebKitGTK on (Debian's package xvfb).";
  return null;
}

/**
 * WebKitGTK's own small browser, driven over WebDriver (W3C), on a screen that nobody sees.
 *
 * @param env what is to be added to its environment
 */
export async function openWebKit(env: Readonly<Record<string, string>>): Promise<Driver> {
  const screen = process.env.DISPLAY === undefined ? await openScreen() : null;
  const port = await freePort();
  const driver = spawn(driverProgram, [`--port=${port}`], {
    stdio: "ignore",
    env: { ...process.env, ...env, DISPLAY: screen?.name ?? process.env.DISPLAY },
  });
  const ask = async (method: string, path: string, body?: object): Promise<unknown> => {
    const response = await fetch(`http://127.0.0.1:${port}${path}`, {
      method,
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      signal: AbortSignal.timeout(answerMs),
    });
    const { value } = (await response.json()) as { value: unknown };
    if (!response.ok) throw new Error(`${path}: ${JSON.stringify(value)}`);
    return value;
  };
  await answering(ask);
  const made = (await ask("POST", "/session", {
    capabilities: {
      alwaysMatch: {
        "webkitgtk:browserOptions": { binary: browserProgram, args: ["--automation"] },
      },
    },
  })) as { sessionId: string };
  const session = `/session/${made.sessionId}`;
  const act = (actions: object) => ask("POST", `${session}/actions`, { actions });
  await ask("POST", `${session}/window/rect`, { width: 1366, height: 900 });
  const run = (script: string) => ask("POST", `${session}/execute/sync`, { script, args: [] });
  return {
    async open(url) {
      await ask("POST", `${session}/url`, { url });
      // WebDriver tells of no errors of the page, so it keeps its own from here on; what the content policy
      // refused while it loaded is told afterwards too.
      await run(`window.seenErrors ??= [];
        for (const kind of ["error", "unhandledrejection", "securitypolicyviolation"])
          addEventListener(kind, (event) => window.seenErrors.push(
            kind + ": " + (event.message ?? event.reason ?? event.violatedDirective)));
        new ReportingObserver((reports) => {
          for (const { type, body } of reports) window.seenErrors.push(type + ": " + JSON.stringify(body));
        }, { types: ["csp-violation"], buffered: true }).observe();`);
    },
    async read<Value>(expression: string) {
      const text = (await run(`return JSON.stringify(${expression})`)) as string | null;
      return JSON.parse(text ?? "null") as Value;
    },
    press: async (x, y) =>
      void (await act([
        {
          type: "pointer",
          id: "mouse",
          parameters: { pointerType: "mouse" },
          actions: [
            { type: "pointerMove", duration: 0, x, y },
            { type: "pointerDown", button: 0 },
            { type: "pointerUp", button: 0 },
          ],
        },
      ])),
    type: async (text) =>
      void (await act([
        {
          type: "key",
          id: "keys",
          actions: [...text].flatMap((value) => [
            { type: "keyDown", value: value === "\n" ? "\uE007" : value },
            { type: "keyUp", value: value === "\n" ? "\uE007" : value },
          ]),
        },
      ])),
    errors: async () => (await run("return window.seenErrors ?? []")) as string[],
    async close() {
      await ask("DELETE", session).catch(() => undefined);
      await ended(driver);
      if (screen !== null) await ended(screen.child);
    },
  };
}

async function openScreen(): Promise<{ name: string; child: ChildProcess }> {
  const child = spawn(screenProgram, ["-displayfd", "3", "-screen", "0", "1600x1000x24"], {
    stdio: ["ignore", "ignore", "ignore", "pipe"],
  });
  const number = await new Promise<string>((resolve, reject) => {
    child.stdio[3]?.once("data", (data: Buffer) => resolve(String(data).trim()));
    child.once("exit", () => reject(new Error("The screen did not open.")));
  });
  return { name: `:${number}`, child };
}

async function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const gone = new Promise((resolve) => child.once("exit", resolve));
  child.kill("SIGTERM");
  await gone;
}

/** Waits until the driver takes sessions. */
async function answering(ask: (method: string, path: string) => Promise<unknown>): Promise<void> {
  for (const limitMs = Date.now() + 10_000; ; ) {
    const isReady = await ask("GET", "/status").then(
      () => true,
      () => false,
    );
    if (isReady) return;
    if (Date.now() > limitMs) throw new Error("WebKit's driver does not answer.");
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}
