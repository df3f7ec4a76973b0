import { afterEach, describe, expect, it } from "vitest";
import type { Handlers } from "../../electron/services/base/handlers.ts";
import { type FollowState, isUnreachable, type LinkState } from "../../src/api/client.ts";
import { type LineCarried, overPort, overSocket, until } from "./support/carriers.ts";
import {
  createGroup,
  event,
  group,
  growingLog,
  handlersWith,
  sessionId,
} from "./support/fake-handlers.ts";

const carriers: readonly (readonly [string, (handlers: Handlers) => Promise<LineCarried>])[] = [
  ["a port", overPort],
  ["a socket", overSocket],
];

describe.each(carriers)("when %s breaks", (_name, carry) => {
  let carried: LineCarried | null = null;
  const serve = async (handlers: Handlers) => {
    carried = await carry(handlers);
    return carried;
  };
  afterEach(async () => {
    await carried?.close();
    carried = null;
  });

  // Known in the library before 1.14.6: a call into a closed socket was left hanging.
  it("rejects the calls under way and those that come while it is down", async () => {
    const signals: AbortSignal[] = [];
    const open: Handlers["sessions"]["open"] = (_, { signal }) => {
      signals.push(signal);
      return new Promise<never>(() => undefined);
    };
    const { link, cut, down } = await serve(handlersWith({ sessions: { open } }));
    const calls = [link.api.sessions.open(), link.api.sessions.open()];
    const ends = Promise.allSettled(calls);
    await until(() => signals.length === 2, "the calls arrived");
    down(true);
    cut();
    const late = await link.api.sessions.open().catch((error: unknown) => error);
    expect(isUnreachable(late)).toBe(true);
    for (const end of await ends) {
      expect(end.status === "rejected" && isUnreachable(end.reason)).toBe(true);
    }
    expect(signals.every(({ aborted }) => aborted)).toBe(true);
  });

  it("rejects a stream that waits, and tells the desktop side", async () => {
    const { watch, watchers } = growingLog();
    const { link, cut } = await serve(handlersWith({ sessions: { watch } }));
    const reading = (async () => {
      for await (const _ of await link.api.sessions.watch({ sessionId, after: 0 }));
    })().catch((error: unknown) => error);
    await until(() => watchers.open === 1, "the stream is open");
    cut();
    expect(isUnreachable(await reading)).toBe(true);
    await until(() => watchers.open === 0, "the stream ended on the desktop side");
  });

  it("connects again by itself, and tells its state", async () => {
    const { link, cut } = await serve(handlersWith({ groups: { create: createGroup } }));
    const states: LinkState[] = [];
    link.onState((state) => states.push(state));
    expect(await link.api.groups.create({ name: "Maple", target: "" })).toEqual(group("Maple"));
    cut();
    await until(() => states.includes("lost"), "the break was told");
    expect(await link.api.groups.create({ name: "Birch", target: "" })).toEqual(group("Birch"));
    expect(states.slice(states.indexOf("lost"))).toEqual(["lost", "connecting", "open"]);
  });

  it("lets a call wait for a line that comes back in time", async () => {
    const { link, cut, down } = await serve(handlersWith({ groups: { create: createGroup } }));
    await link.api.groups.create({ name: "Maple", target: "" });
    down(true);
    cut();
    await until(() => link.state() !== "open", "the break was noticed");
    const call = link.api.groups.create({ name: "Birch", target: "" });
    setTimeout(() => down(false), 100);
    expect(await call).toEqual(group("Birch"));
  });

  it("follows a stream through breaks: every item once, in order, until the end", async () => {
    const { watch, watchers, append } = growingLog();
    const { link, cut, down } = await serve(handlersWith({ sessions: { watch } }));
    const seen: number[] = [];
    const states: FollowState[] = [];
    let after = 0;
    link.follow({
      open: (api, signal) => api.sessions.watch({ sessionId, after }, { signal }),
      onItem: ({ stamp }) => {
        after = stamp.seq;
        seen.push(stamp.seq);
      },
      onState: (state) => states.push(state),
    });
    let written = 0;
    for (const breaks of [0, 1, 2, 3]) {
      for (let count = 0; count < 25; count += 1) append(event(++written));
      await until(() => seen.length === written, `items before break ${breaks}`);
      down(true);
      cut();
      append(event(++written));
      await new Promise((resolve) => setTimeout(resolve, 30));
      down(false);
    }
    // And in the middle of a burst, with items on the way.
    for (let count = 0; count < 300; count += 1) append(event(++written));
    await until(() => seen.length > 120, "the burst has begun");
    cut();
    append({ ...event(++written), body: { kind: "ended", reason: "finished" } });
    await until(() => states.at(-1) === "ended", "the stream ended");
    expect(seen).toEqual(Array.from({ length: written }, (_, index) => index + 1));
    expect(watchers.opened).toBeGreaterThanOrEqual(5);
    await until(() => watchers.open === 0, "no watcher is left");
  });

  it("tells nothing more once following was stopped", async () => {
    const { watch, watchers, append } = growingLog();
    const { link } = await serve(handlersWith({ sessions: { watch } }));
    const seen: number[] = [];
    const stop = link.follow({
      open: (api, signal) => api.sessions.watch({ sessionId, after: 0 }, { signal }),
      onItem: ({ stamp }) => seen.push(stamp.seq),
    });
    append(event(1));
    await until(() => seen.length === 1, "the first item");
    stop();
    append(event(2));
    await until(() => watchers.open === 0, "the stream ended on the desktop side");
    expect(seen).toEqual([1]);
  });

  it("ends a following that the desktop side refuses", async () => {
    const { link } = await serve(handlersWith({}));
    const errors: unknown[] = [];
    link.follow({
      open: (api, signal) => api.sessions.watch({ sessionId, after: 0 }, { signal }),
      onItem: () => expect.unreachable(),
      onError: (error) => errors.push(error),
    });
    await until(() => errors.length === 1, "the refusal was told");
    expect(errors[0]).toMatchObject({ failure: { kind: "missing" } });
  });

  it("loses no rejection when a call is cancelled while the line goes down", async () => {
    const strays: unknown[] = [];
    const note = (error: unknown) => strays.push(error);
    process.on("unhandledRejection", note);
    try {
      const { watch } = growingLog();
      const { link, cut } = await serve(handlersWith({ sessions: { watch } }));
      const leaving = new AbortController();
      const { signal } = leaving;
      const reading = (async () => {
        for await (const _ of await link.api.sessions.watch({ sessionId, after: 0 }, { signal })) {
        }
      })().catch((error: unknown) => error);
      await new Promise((resolve) => setTimeout(resolve, 50));
      link.close();
      cut();
      leaving.abort(new Error("left"));
      expect(await reading).toBeInstanceOf(Error);
      await new Promise((resolve) => setTimeout(resolve, 50));
      expect(strays).toEqual([]);
    } finally {
      process.off("unhandledRejection", note);
    }
  });

  it("stays closed once it was closed", async () => {
    const { link } = await serve(handlersWith({ groups: { create: createGroup } }));
    await link.api.groups.create({ name: "Maple", target: "" });
    link.close();
    const late = await link.api.groups.create({ name: "Maple", target: "" }).catch((e) => e);
    expect(isUnreachable(late)).toBe(true);
    expect(link.state()).toBe("closed");
  });
});
