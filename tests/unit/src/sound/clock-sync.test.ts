import seedrandom from "seedrandom";
import { expect, test } from "vitest";
import { createClockSync } from "../../../../src/sound/clock-sync.ts";

/** A conductor whose clock is `offset` ahead at page zero, reached over a road with uneven delays. */
function set(options: { delays: () => [number, number]; speed?: number; offset?: number }) {
  const world = { pageMs: 1000, speed: options.speed ?? 1, offset: options.offset ?? 50_000 };
  const conductorAt = (pageMs: number) => world.offset + pageMs * world.speed;
  const timers: { at: number; then: () => void }[] = [];
  let asked = 0;
  const sync = createClockSync({
    nowMs: () => world.pageMs,
    async ask() {
      asked += 1;
      const [there, back] = options.delays();
      world.pageMs += there;
      const answer = { monotonicMs: conductorAt(world.pageMs), speed: world.speed };
      world.pageMs += back;
      return answer;
    },
    after(ms, then) {
      timers.push({ at: world.pageMs + ms, then });
      return () => timers.splice(0);
    },
  });
  return { world, conductorAt, sync, timers, asked: () => asked };
}

test("knows nothing before the first answer", () => {
  const { sync } = set({ delays: () => [1, 1] });
  expect(sync.pageMsAt(0)).toBeNull();
  expect(sync.monotonicMsAt(0)).toBeNull();
  expect(sync.uncertaintyMs()).toBeNull();
});

test("keeps the shortest round trip, so one clean answer among slow lopsided ones decides", async () => {
  const roads: [number, number][] = [
    [80, 3],
    [2, 60],
    [1, 1],
    [40, 4],
    [3, 200],
    [9, 2],
    [30, 1],
  ];
  let turn = 0;
  const { sync, conductorAt } = set({ delays: () => roads[turn++ % roads.length] ?? [1, 1] });
  await sync.refresh();
  expect(sync.pageMsAt(conductorAt(90_000))).toBeCloseTo(90_000, 6);
  expect(sync.monotonicMsAt(90_000)).toBeCloseTo(conductorAt(90_000), 6);
});

test("places a cue after one answer, and asks no second time for that", async () => {
  const { sync, conductorAt, asked } = set({ delays: () => [400, 100] });
  await sync.first();
  expect(asked()).toBe(1);
  const off = Math.abs((sync.pageMsAt(conductorAt(9000)) ?? Number.NaN) - 9000);
  expect(off).toBeLessThanOrEqual((sync.uncertaintyMs() ?? Number.NaN) + 1e-6);
  await sync.first();
  expect(asked()).toBe(1);
});

test("is never further off than it says, over random roads", async () => {
  const draw = seedrandom("clock-sync");
  for (let round = 0; round < 200; round++) {
    const { sync, conductorAt, world } = set({
      delays: () => [draw() * 30, draw() * 30],
      offset: draw() * 1e6,
    });
    await sync.refresh();
    const off = Math.abs((sync.pageMsAt(conductorAt(world.pageMs)) ?? Number.NaN) - world.pageMs);
    expect(off).toBeLessThanOrEqual((sync.uncertaintyMs() ?? Number.NaN) + 1e-6);
  }
});

test("counts the conductor's ms by its speed", async () => {
  const { sync, conductorAt } = set({ delays: () => [2, 2], speed: 60 });
  await sync.refresh();
  expect(sync.pageMsAt(conductorAt(5000))).toBeCloseTo(5000, 6);
  expect(sync.monotonicMsAt(5000)).toBeCloseTo(conductorAt(5000), 6);
});

test("takes a change of speed, and a conductor that began anew, from the first answer", async () => {
  const { sync, world, conductorAt } = set({ delays: () => [2, 2] });
  await sync.refresh();
  world.speed = 10;
  await sync.refresh();
  expect(sync.pageMsAt(conductorAt(9000))).toBeCloseTo(9000, 6);
  world.offset = -300_000;
  await sync.refresh();
  expect(sync.pageMsAt(conductorAt(9000))).toBeCloseTo(9000, 6);
});

test("follows a slow drift once its older answer has grown uncertain", async () => {
  const { sync, world, conductorAt } = set({ delays: () => [5, 5] });
  await sync.refresh();
  for (let minute = 0; minute < 60; minute++) {
    world.pageMs += 60_000;
    // 100 parts in a million.
    world.offset += 6;
    await sync.refresh();
    const off = (sync.pageMsAt(conductorAt(world.pageMs)) ?? Number.NaN) - world.pageMs;
    expect(Math.abs(off)).toBeLessThan(20);
  }
});

test("asks again every so often until stopped, and reports an answer that failed", async () => {
  let broken = false;
  const { sync, timers, asked } = set({
    delays: () => {
      if (broken) throw new Error("gone");
      return [1, 1];
    },
  });
  const troubles: unknown[] = [];
  const stop = sync.keepFresh((problem) => troubles.push(problem));
  const settle = async () => {
    for (let turn = 0; turn < 60; turn++) await Promise.resolve();
  };
  await settle();
  expect(asked()).toBe(7);
  expect(timers).toHaveLength(1);
  broken = true;
  timers.splice(0)[0]?.then();
  await settle();
  expect(troubles).toHaveLength(1);
  expect(sync.pageMsAt(0)).not.toBeNull();
  expect(timers).toHaveLength(1);
  stop();
  expect(timers).toHaveLength(0);
});

test("asks again soon while answers come slowly, as on a busy machine, and seldom once one came quickly", async () => {
  let road: [number, number] = [20, 3];
  const { sync, timers, world } = set({ delays: () => road });
  const settle = async () => {
    for (let turn = 0; turn < 60; turn++) await Promise.resolve();
  };
  const stop = sync.keepFresh(() => {});
  await settle();
  expect((timers[0]?.at ?? 0) - world.pageMs).toBe(2_000);
  road = [0.4, 0.4];
  timers.splice(0)[0]?.then();
  await settle();
  expect((timers[0]?.at ?? 0) - world.pageMs).toBeCloseTo(20_000, 6);
  stop();
});
