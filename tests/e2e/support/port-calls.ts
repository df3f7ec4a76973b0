import type { Page } from "playwright";
import type { App } from "./launch.ts";

// Calls over a port that the test itself asks the shell for. A frame has one live port, so the test and the
// page's own client would take it from each other: use a page from `quietPage`.

declare global {
  interface Window {
    /** In the page: the ports that a test asked for, in order. */
    testPorts?: MessagePort[];
  }
}

/**
 * Takes a window to an address of the app that has no program: the answer for a file that is not there. It
 * has the app's origin, policy and preload, and no client that asks for ports.
 */
export async function quietPage(app: Pick<App, "page" | "address">): Promise<Page> {
  const page = await app.page();
  await page.goto(app.address("/nothing.txt"));
  return page;
}

/** Asks the shell for a port and keeps it in the page; resolves to how many were kept so far. */
export function openPort(page: Page): Promise<number> {
  return page.evaluate(async () => {
    const arrived = new Promise<MessagePort>((resolve) => {
      window.addEventListener("message", (event) => {
        if (event.data?.kind === "pebblechime-port" && event.ports[0]) resolve(event.ports[0]);
      });
    });
    const outcome = await window.pebblechime?.openPort();
    if (outcome?.kind !== "opened") throw new Error(outcome?.message ?? "There is no preload.");
    const port = await arrived;
    port.start();
    window.testPorts = [...(window.testPorts ?? []), port];
    return window.testPorts.length;
  });
}

/** Whether the `number`-th kept port, from 1, hears its other end close within two seconds. */
export function portCloses(page: Page, number: number): Promise<boolean> {
  return page.evaluate(async (wanted) => {
    const port = window.testPorts?.[wanted - 1];
    return new Promise<boolean>((resolve) => {
      port?.addEventListener("close", () => resolve(true));
      setTimeout(() => resolve(false), 2_000);
    });
  }, number);
}

/** Calls a procedure over the newest kept port, opening one first if there is none; rejects on an error. */
export async function call<Output = unknown>(
  page: Page,
  path: string,
  input?: unknown,
): Promise<Output> {
  const isOpen = await page.evaluate(() => (window.testPorts?.length ?? 0) > 0);
  if (!isOpen) await openPort(page);
  const body = await page.evaluate(
    async ({ path, input }) => {
      const port = window.testPorts?.at(-1);
      if (port === undefined) throw new Error("No port was opened.");
      const id = `test-${Math.random().toString(36).slice(2)}`;
      return new Promise<{ s?: number; b?: { json?: unknown } }>((resolve, reject) => {
        setTimeout(() => reject(new Error(`No answer to ${path} in 10 s.`)), 10_000);
        const hear = ({ data }: MessageEvent) => {
          if (typeof data !== "string") return;
          port.postMessage(data.length);
          const answer = JSON.parse(data);
          if (answer.i !== id) return;
          port.removeEventListener("message", hear);
          resolve(answer.p);
        };
        port.addEventListener("message", hear);
        const b = input === undefined ? undefined : { json: input };
        port.postMessage(JSON.stringify({ i: id, p: { u: `/${path}`, b } }));
      });
    },
    { path, input },
  );
  if ((body.s ?? 200) >= 400) throw new Error(`${path}: ${JSON.stringify(body.b)}`);
  // The test names the type of what it asked for.
  return body.b?.json as Output;
}
