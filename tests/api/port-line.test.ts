import { MessageChannel } from "node:worker_threads";
import { expect, it, vi } from "vitest";
import { portMessage } from "../../shared/api/port-message.ts";
import type { PortOutcome } from "../../shared/api/shell.ts";
import { isUnreachable } from "../../src/api/client.ts";
import { openPortLine } from "../../src/api/line.ts";

/** A page as far as a line needs one: it hears messages and knows where it is. */
class FakePage extends EventTarget {
  readonly location = { origin: "pebblechime://app" };

  hear(message: { data: unknown; origin?: string; source?: unknown; ports?: readonly unknown[] }) {
    const event = Object.assign(new Event("message"), {
      origin: this.location.origin,
      source: this,
      ports: [],
      ...message,
    });
    this.dispatchEvent(event);
  }
}

const asked = (outcome: PortOutcome) => ({ openPort: () => Promise.resolve(outcome) });
const asPage = (page: FakePage) => page as unknown as Window;

it("takes the port that this very window passes on, and no other", async () => {
  const page = new FakePage();
  const opening = openPortLine(asked({ kind: "opened", scope: "teacher" }), asPage(page));
  const wrong = new MessageChannel().port1;
  const { port1: ours, port2 } = new MessageChannel();
  const data = { kind: portMessage };
  page.hear({ data, ports: [wrong], origin: "http://evil.example" });
  page.hear({ data, ports: [wrong], origin: "null" });
  page.hear({ data, ports: [wrong], source: new FakePage() });
  page.hear({ data, ports: [wrong], source: null });
  page.hear({ data: { kind: "other" }, ports: [wrong] });
  page.hear({ data: portMessage, ports: [wrong] });
  page.hear({ data, ports: [] });
  page.hear({ data, ports: [ours] });
  const line = await opening;
  const heard = new Promise((resolve) => port2.once("message", resolve));
  line.send("through ours");
  expect(await heard).toBe("through ours");
  line.close();
});

it("fails when the window refuses", async () => {
  const refusing = asked({ kind: "failed", message: "no" });
  const error = await openPortLine(refusing, asPage(new FakePage())).catch((e) => e);
  expect(isUnreachable(error)).toBe(true);
});

it("fails when no port comes, and takes none later", async () => {
  vi.useFakeTimers();
  try {
    const opening = openPortLine(
      asked({ kind: "opened", scope: "teacher" }),
      asPage(new FakePage()),
    );
    const error = opening.catch((e: unknown) => e);
    await vi.advanceTimersByTimeAsync(10_000);
    expect(isUnreachable(await error)).toBe(true);
  } finally {
    vi.useRealTimers();
  }
});
