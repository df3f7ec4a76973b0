import { expect, test } from "vitest";
import { changeFeed } from "../../../../electron/services/base/changes.ts";
import { type Change, topics } from "../../../../shared/api/app.ts";

const never = new AbortController().signal;

function reader(stream: AsyncIterable<Change>) {
  const iterator = stream[Symbol.asyncIterator]();
  return { next: () => iterator.next(), leave: () => iterator.return?.() };
}

test("1. a reader without a mark, or from another run, refreshes everything", async () => {
  const { subscribe, publish } = changeFeed("now");
  publish("plans");
  const marks = [null, { epoch: "before", version: 1 }, { epoch: "now", version: 99 }];
  for (const after of marks) {
    const first = await reader(subscribe(after, never)).next();
    expect(first.value).toEqual({ epoch: "now", version: 1, topics: [...topics] });
  }
});

test("2. a reader that comes back gets what it missed, as one change", async () => {
  const { subscribe, publish } = changeFeed("now");
  publish("plans");
  publish("groups", "students");
  publish("groups");
  const { value } = await reader(subscribe({ epoch: "now", version: 1 }, never)).next();
  expect(value).toEqual({ epoch: "now", version: 3, topics: ["groups", "students"] });
});

test("3. a waiting reader hears each change; a slow one gets those it missed as one", async () => {
  const { subscribe, publish } = changeFeed("now");
  const { next } = reader(subscribe({ epoch: "now", version: 0 }, never));
  const waiting = next();
  publish("settings");
  expect((await waiting).value).toEqual({ epoch: "now", version: 1, topics: ["settings"] });
  for (let index = 0; index < 10_000; index++) publish(index % 2 === 0 ? "records" : "sessions");
  expect((await next()).value).toEqual({
    epoch: "now",
    version: 10_001,
    topics: ["sessions", "records"],
  });
});

test("4. ends when its caller goes, waiting or not", async () => {
  const { subscribe, publish } = changeFeed("now");
  const abort = new AbortController();
  const { next } = reader(subscribe({ epoch: "now", version: 0 }, abort.signal));
  const waiting = next();
  abort.abort();
  expect((await waiting).done).toBe(true);
  publish("plans");
  expect((await next()).done).toBe(true);
  const late = reader(subscribe({ epoch: "now", version: 0 }, abort.signal));
  expect((await late.next()).done).toBe(true);
});

test("5. ends for a reader that leaves while it waits", async () => {
  const { subscribe } = changeFeed("now");
  const { next, leave } = reader(subscribe({ epoch: "now", version: 0 }, never));
  const waiting = next();
  await leave();
  expect((await waiting).done).toBe(true);
});

test("6. each reader is told apart from the others", async () => {
  const { subscribe, publish } = changeFeed("now");
  const readers = [1, 2, 3].map(() => reader(subscribe({ epoch: "now", version: 0 }, never)));
  publish("phases");
  for (const { next } of readers)
    expect((await next()).value).toMatchObject({ topics: ["phases"] });
});
