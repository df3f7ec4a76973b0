import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { WebSocket } from "ws";
import type { Driver } from "./driver.ts";

const program = process.env.PEBBLECHIME_FIREFOX ?? "/usr/bin/firefox-esr";
const startMs = 30_000;
const answerMs = 30_000;

/**
 * A new profile opens pages of its own and looks for updates and settings; a page that comes late replaces the
 * one under test and leaves its navigation without an answer.
 */
const quietProfile = `
user_pref("browser.startup.page", 0);
user_pref("browser.startup.homepage", "about:blank");
user_pref("startup.homepage_welcome_url", "about:blank");
user_pref("startup.homepage_override_url", "");
user_pref("browser.startup.homepage_override.mstone", "ignore");
user_pref("browser.aboutwelcome.enabled", false);
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("browser.sessionstore.resume_from_crash", false);
user_pref("browser.newtabpage.enabled", false);
user_pref("app.update.enabled", false);
user_pref("app.normandy.enabled", false);
user_pref("extensions.update.enabled", false);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("toolkit.telemetry.enabled", false);
user_pref("network.captive-portal-service.enabled", false);
user_pref("network.connectivity-service.enabled", false);
user_pref("services.settings.server", "data:,#nothing-is-fetched");
user_pref("browser.safebrowsing.malware.enabled", false);
user_pref("browser.safebrowsing.phishing.enabled", false);
`;

/** The promise, or an error that says what did not come. */
async function within<Value>(
  promise: Promise<Value>,
  limitMs: number,
  what: string,
): Promise<Value> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(
      () => reject(new Error(`Firefox: not within ${limitMs / 1_000} s: ${what}`)),
      limitMs,
    );
  });
  try {
    return await Promise.race([promise, late]);
  } finally {
    clearTimeout(timer);
  }
}

/** Why Firefox cannot be driven here, or null. */
export const noFirefox = (): string | null =>
  existsSync(program) ? null : `${program} is not installed (Debian's package firefox-esr).`;

interface Answer {
  readonly id?: number;
  readonly type: "success" | "error" | "event";
  readonly result?: Record<string, unknown>;
  readonly message?: string;
  readonly method?: string;
  readonly params?: Record<string, unknown>;
}

/**
 * Firefox without a window, driven over WebDriver BiDi (W3C), which it speaks itself.
 *
 * @param env what is to be added to its environment
 */
export async function openFirefox(env: Readonly<Record<string, string>>): Promise<Driver> {
  const profile = mkdtempSync(join(tmpdir(), "pebblechime-firefox-"));
  writeFileSync(join(profile, "user.js"), quietProfile);
  const child = spawn(
    program,
    ["--headless", "--no-remote", "--profile", profile, "--remote-debugging-port", "0"],
    { stdio: ["ignore", "ignore", "pipe"], env: { ...process.env, HOME: profile, ...env } },
  );
  const end = async () => {
    const ended = new Promise((resolve) => child.once("exit", resolve));
    child.kill("SIGTERM");
    const hard = setTimeout(() => child.kill("SIGKILL"), 5_000);
    if (child.exitCode === null && child.signalCode === null) await ended;
    clearTimeout(hard);
    rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  };
  const listening = new Promise<string>((resolve, reject) => {
    let said = "";
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      said += text;
      const found = /ws:\/\/\S+/.exec(said)?.[0];
      if (found !== undefined) resolve(found);
    });
    child.once("exit", () => reject(new Error(`Firefox ended: ${said}`)));
  });
  const endpoint = await within(listening, startMs, "its address").catch(async (error) => {
    await end();
    throw error;
  });
  const socket = new WebSocket(`${endpoint}/session`);
  const waiting = new Map<number, PromiseWithResolvers<Record<string, unknown>>>();
  const errors: string[] = [];
  socket.on("message", (data) => {
    const answer: Answer = JSON.parse(String(data));
    if (answer.method === "log.entryAdded" && answer.params?.level === "error")
      errors.push(String(answer.params.text));
    const asked = waiting.get(answer.id ?? -1);
    waiting.delete(answer.id ?? -1);
    if (answer.type === "error") asked?.reject(new Error(answer.message));
    else asked?.resolve(answer.result ?? {});
  });
  await new Promise((resolve, reject) => socket.once("open", resolve).once("error", reject));
  let lastId = 0;
  const send = (method: string, params: object): Promise<Record<string, unknown>> => {
    const asked = Promise.withResolvers<Record<string, unknown>>();
    waiting.set(++lastId, asked);
    socket.send(JSON.stringify({ id: lastId, method, params }));
    return within(asked.promise, answerMs, `an answer to ${method}`);
  };
  await send("session.new", { capabilities: {} });
  await send("session.subscribe", { events: ["log.entryAdded"] });
  // Before any script of the page: what the content policy refuses is told to the page alone.
  await send("script.addPreloadScript", {
    functionDeclaration: `() => {
      window.refusedByPolicy = [];
      addEventListener("securitypolicyviolation", (event) =>
        window.refusedByPolicy.push(event.violatedDirective + " " + event.blockedURI));
    }`,
  });
  const { contexts } = await send("browsingContext.getTree", {});
  const context = (contexts as { context: string }[])[0]?.context;
  await send("browsingContext.setViewport", { context, viewport: { width: 1366, height: 768 } });
  const act = (actions: object) => send("input.performActions", { context, actions });
  const read = async <Value>(expression: string): Promise<Value> => {
    const { result, exceptionDetails } = await send("script.evaluate", {
      expression: `JSON.stringify(${expression})`,
      target: { context },
      awaitPromise: true,
      userActivation: false,
    });
    if (exceptionDetails !== undefined) throw new Error(JSON.stringify(exceptionDetails));
    return JSON.parse((result as { value?: string }).value ?? "null") as Value;
  };
  return {
    open: async (url) =>
      void (await send("browsingContext.navigate", { context, url, wait: "complete" })),
    read,
    press: async (x, y) =>
      void (await act([
        {
          type: "pointer",
          id: "mouse",
          actions: [
            { type: "pointerMove", x, y },
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
    errors: async () => [...errors, ...(await read<string[]>("window.refusedByPolicy ?? []"))],
    async close() {
      socket.close();
      await end();
    },
  };
}
