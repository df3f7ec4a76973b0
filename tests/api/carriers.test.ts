import { afterEach, describe, expect, it } from "vitest";
import type { Handlers } from "../../electron/services/base/handlers.ts";
import { longestMessageBytes } from "../../shared/api/procedures.ts";
import type { SessionEvent } from "../../shared/session/event.ts";
import { ApiError, isRefusal } from "../../src/api/client.ts";
import { type Carried, inMemory, overPort, overSocket, until } from "./support/carriers.ts";
import {
  createGroup,
  event,
  group,
  growingLog,
  handlersWith,
  privateName,
  sessionId,
} from "./support/fake-handlers.ts";

const carriers: readonly (readonly [string, (handlers: Handlers) => Promise<Carried>])[] = [
  ["in memory", inMemory],
  ["over a port", overPort],
  ["over a socket", overSocket],
];

async function failureOf(call: Promise<unknown>) {
  const error = await call.then(
    () => new Error("it did not fail"),
    (reason: unknown) => reason,
  );
  if (error instanceof ApiError) return error.failure;
  throw error;
}

describe.each(carriers)("the API %s", (_name, carry) => {
  let carried: Carried | null = null;
  const serve = async (handlers: Handlers) => {
    carried = await carry(handlers);
    return carried;
  };
  afterEach(async () => {
    await carried?.close();
    carried = null;
  });

  it("answers good input", async () => {
    const { link } = await serve(handlersWith({ groups: { create: createGroup } }));
    const made = await link.api.groups.create({ name: "  Maple  ", target: "" });
    // The declared schema trims names before a handler sees them.
    expect(made).toEqual(group("Maple"));
  });

  it("answers a procedure without input", async () => {
    const open = () => null;
    const { link } = await serve(handlersWith({ sessions: { open } }));
    expect(await link.api.sessions.open()).toBeNull();
  });

  it("tells where input is bad, and asks no handler", async () => {
    let asked = 0;
    const create: Handlers["groups"]["create"] = ({ name }) => {
      asked += 1;
      return group(name);
    };
    const { link, log } = await serve(handlersWith({ groups: { create } }));
    const bad = { name: "", target: 7, extra: privateName };
    // The compiler would not let this through; a page of another version could send it.
    const failure = await failureOf(link.api.groups.create(bad as never));
    expect(failure.kind).toBe("bad-input");
    const paths = failure.kind === "bad-input" ? failure.issues.map(({ path }) => path) : [];
    expect(paths).toEqual(expect.arrayContaining(["name", "target"]));
    expect(JSON.stringify(failure)).not.toContain(privateName);
    expect(asked).toBe(0);
    expect(log).toEqual([]);
  });

  it("never says back a key that it does not know, however many there are", async () => {
    const { link, log } = await serve(handlersWith({ groups: { create: createGroup } }));
    const keys = Array.from({ length: 20_000 }, (_, index) => [`${privateName} ${index}`, 1]);
    const bad = { name: "Maple", target: "", ...Object.fromEntries(keys) };
    const failure = await failureOf(link.api.groups.create(bad as never));
    expect(failure.kind).toBe("bad-input");
    expect(JSON.stringify(failure)).not.toContain(privateName);
    expect(JSON.stringify(failure).length).toBeLessThan(1_000);
    const seats = { seatsInRow: { [privateName]: 3 } };
    const inRecord = await failureOf(link.api.app.saveSettings(seats));
    expect(inRecord.kind).toBe("bad-input");
    expect(JSON.stringify(inRecord)).not.toContain(privateName);
    expect(log).toEqual([]);
  });

  it("carries a refusal with its code and values", async () => {
    const { link } = await serve(handlersWith({ groups: { create: createGroup } }));
    const error = await link.api.groups.create({ name: "taken", target: "" }).catch((e) => e);
    expect(error.failure).toEqual({
      kind: "refused",
      code: "name-taken",
      values: { name: "taken", nearest: 2 },
    });
    expect(error.message).toBe("This name is taken. Choose another.");
    expect(isRefusal(error, "name-taken")).toBe(true);
    expect(isRefusal(error, "seed-bad")).toBe(false);
  });

  it("carries what is missing", async () => {
    const { link } = await serve(handlersWith({ groups: { create: createGroup } }));
    const failure = await failureOf(link.api.groups.create({ name: "gone", target: "" }));
    expect(failure).toEqual({ kind: "missing", what: "group" });
  });

  it("gives an unexpected failure a reference that the log has too, and logs no name", async () => {
    const { link, log } = await serve(handlersWith({ groups: { create: createGroup } }));
    const error = await link.api.groups.create({ name: "broken", target: "" }).catch((e) => e);
    expect(error.failure.kind).toBe("failed");
    expect(error.failure.reference).toMatch(/^[0-9a-f]{8}$/);
    expect(log).toHaveLength(1);
    expect(log[0]).toContain(error.failure.reference);
    expect(log[0]).toContain("groups.create");
    expect(log[0]).toContain("fake-handlers.ts");
    expect(`${error.message}${log[0]}`).not.toContain(privateName);
  });

  it("lets no output through that is not as declared", async () => {
    const { link, log } = await serve(handlersWith({ groups: { create: createGroup } }));
    const failure = await failureOf(link.api.groups.create({ name: "misshapen", target: "" }));
    expect(failure.kind).toBe("failed");
    expect(log).toHaveLength(1);
  });

  it("streams what was missed, then what is new, and ends", async () => {
    const { watch, append } = growingLog();
    const { link } = await serve(handlersWith({ sessions: { watch } }));
    append(event(1));
    append(event(2));
    append(event(3));
    const seen: number[] = [];
    for await (const { stamp } of await link.api.sessions.watch({ sessionId, after: 1 })) {
      seen.push(stamp.seq);
      if (stamp.seq === 3) append(event(4));
      if (stamp.seq === 4) {
        append({ ...event(5), body: { kind: "ended", reason: "finished" } });
      }
    }
    expect(seen).toEqual([2, 3, 4, 5]);
  });

  it("ends a stream on the desktop side when its reader leaves", async () => {
    const { watch, watchers, append } = growingLog();
    const { link } = await serve(handlersWith({ sessions: { watch } }));
    append(event(1));
    for await (const _ of await link.api.sessions.watch({ sessionId, after: 0 })) break;
    await until(() => watchers.open === 0, "the stream ended");
  });

  it("cancels a stream that waits, also one that does not listen", async () => {
    let left = false;
    const deaf: Handlers["sessions"]["watch"] = () => ({
      [Symbol.asyncIterator]: () => ({
        next: () => new Promise<IteratorResult<SessionEvent>>(() => undefined),
        return: async () => {
          left = true;
          return { done: true, value: undefined };
        },
      }),
    });
    const { link } = await serve(handlersWith({ sessions: { watch: deaf } }));
    const leaving = new AbortController();
    const stream = await link.api.sessions.watch(
      { sessionId, after: 0 },
      { signal: leaving.signal },
    );
    const ended = (async () => {
      for await (const _ of stream) expect.unreachable();
    })().catch((error: unknown) => error);
    await new Promise((resolve) => setTimeout(resolve, 20));
    leaving.abort(new Error("left"));
    await Promise.race([ended, new Promise((_, reject) => setTimeout(reject, 2_000))]);
    await until(() => left, "the stream was returned");
  });

  it("cancels a call and tells its handler", async () => {
    const signals: AbortSignal[] = [];
    const open: Handlers["sessions"]["open"] = (_, { signal }) => {
      signals.push(signal);
      return new Promise<never>(() => undefined);
    };
    const { link } = await serve(handlersWith({ sessions: { open } }));
    const leaving = new AbortController();
    const call = link.api.sessions.open(undefined, { signal: leaving.signal });
    await until(() => signals.length === 1, "the call arrived");
    leaving.abort(new Error("left"));
    await expect(call).rejects.toThrow("left");
    await until(() => signals[0]?.aborted === true, "the handler was told");
  });

  it("types a failure in mid-stream", async () => {
    async function* watch(): AsyncGenerator<SessionEvent, void, undefined> {
      yield event(1);
      throw new Error(`lost ${privateName}`);
    }
    const { link, log } = await serve(handlersWith({ sessions: { watch } }));
    const seen: number[] = [];
    const reading = (async () => {
      for await (const { stamp } of await link.api.sessions.watch({ sessionId, after: 0 })) {
        seen.push(stamp.seq);
      }
    })();
    expect((await failureOf(reading)).kind).toBe("failed");
    expect(seen).toEqual([1]);
    expect(log.join()).not.toContain(privateName);
  });

  it("streams no item that is not as declared", async () => {
    async function* watch(): AsyncGenerator<SessionEvent, void, undefined> {
      yield event(0);
    }
    const { link } = await serve(handlersWith({ sessions: { watch } }));
    const reading = (async () => {
      for await (const _ of await link.api.sessions.watch({ sessionId, after: 0 }));
    })();
    expect((await failureOf(reading)).kind).toBe("failed");
  });

  it("makes no more of a stream than its reader takes", async () => {
    let made = 0;
    async function* watch(): AsyncGenerator<SessionEvent, void, undefined> {
      for (;;) {
        made += 1;
        yield event(made);
        await new Promise((resolve) => setImmediate(resolve));
      }
    }
    const { link } = await serve(handlersWith({ sessions: { watch } }));
    const stream = await link.api.sessions.watch({ sessionId, after: 0 });
    let read = 0;
    for await (const { stamp } of stream) {
      read += 1;
      expect(stamp.seq).toBe(read);
      if (read === 500) break;
    }
    const madeThen = made;
    await new Promise((resolve) => setTimeout(resolve, 60));
    // A line holds at most what was on the way; after the reader left nothing more is made.
    expect(made - madeThen).toBeLessThan(50);
  });

  it("gives each page an id of its own", async () => {
    const callers: string[] = [];
    const open: Handlers["sessions"]["open"] = (_, { clientId }) => {
      callers.push(clientId);
      return null;
    };
    const handlers = handlersWith({ sessions: { open } });
    const { link } = await serve(handlers);
    await link.api.sessions.open();
    await link.api.sessions.open();
    const other = await inMemory(handlers);
    await other.link.api.sessions.open();
    expect(callers[0]).toBe(callers[1]);
    expect(callers[2]).not.toBe(callers[0]);
  });

  it("answers a hundred calls at once, each its own", async () => {
    const create: Handlers["groups"]["create"] = async ({ name }) => {
      await new Promise((resolve) => setTimeout(resolve, Number(name) % 7));
      return group(name);
    };
    const { link } = await serve(handlersWith({ groups: { create } }));
    const names = Array.from({ length: 100 }, (_, index) => String(index));
    const made = await Promise.all(
      names.map((wanted) => link.api.groups.create({ name: wanted, target: "" })),
    );
    expect(made.map((one) => one.name)).toEqual(names);
  });

  it("refuses input beyond the declared sizes", async () => {
    const { link } = await serve(handlersWith({ groups: { create: createGroup } }));
    const long = "é".repeat(longestMessageBytes / 2 + 1);
    const failure = await failureOf(link.api.groups.create({ name: "Maple", target: long }));
    expect(failure.kind).toBe("bad-input");
    expect(await link.api.groups.create({ name: "Maple", target: "" })).toEqual(group("Maple"));
  });
});
