import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { WebSocket } from "ws";
import type { Driver } from "./driver.ts";

const program = process.env.PEBBLECHIME_FIREFOX ?? "/usr/bin/firefox-esr";

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
  const child = spawn(
    program,
    ["--headless", "--no-remote", "--profile", profile, "--remote-debugging-port", "0"],
    { stdio: ["ignore", "ignore", "pipe"], env: { ...process.env, HOME: profile, ...env } },
  );
  const end = async () => {
    const ended = new Promise((resolve) => child.once("exit", resolve));
    child.kill("SIGTERM");
    await ended;
    rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  };
  const endpoint = await new Promise<string>((resolve, reject) => {
    let said = "";
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      said += text;
      const found = /ws:\/\/\S+/.exec(said)?.[0];
      if (found !== undefined) resolve(found);
    });
    child.once("exit", () => reject(new Error(`Firefox ended: ${said}`)));
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
    return asked.promise;
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
