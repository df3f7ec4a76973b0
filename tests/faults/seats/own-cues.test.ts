import { afterEach, describe, expect, it } from "vitest";
import { systemClock } from "../../../electron/services/base/clock.ts";
import { replay } from "../../../shared/session/reduce.ts";
import { cuesOf } from "../../../shared/session/state.ts";
import { keyCues } from "../../../src/print/key-cues.ts";
import { answering, type ShownThere } from "./own-devices.ts";
import { type Device, openRoom, type Room, until } from "./room.ts";

let room: Room | null = null;
afterEach(async () => {
  await room?.close();
  room = null;
});

const names = Array.from({ length: 24 }, (_, at) => `Leaf ${at + 1}`);
const speed = 20;
/** No device hears of two cues at once: at this speed the shortest gap lasts three seconds. */
const plan = {
  cueing: "own",
  law: "exponential",
  meanSeconds: 110,
  shortestGapSeconds: 60,
  lengthSeconds: 240,
} as const;

const inOrder = (body: { readonly cue: number }, other: { readonly cue: number }) =>
  body.cue - other.cue;

describe("own cues over the lines of real devices", () => {
  it("are those of the 24 printed keys, cue for cue, and each device hears its own alone", async () => {
    const open = await openRoom({ clock: systemClock(speed), students: names, plan });
    room = open;
    const devices: { device: Device; shown: ShownThere }[] = [];
    for (const at of names.keys()) {
      const device = await open.join(at + 1);
      devices.push({ device, shown: await answering(device) });
    }
    const session = await open.start();
    await until(
      () =>
        devices.every(({ device }) =>
          device.heard.some((told) => told.kind === "state" && told.is === "ended"),
        ),
      "the end",
      60_000,
    );
    const counts = await open.handlers.analysis.counts({ groupId: open.groupId }, open.context);
    const events = await open.eventsOf(session.id);
    room = null;
    const log = events.map(({ body }) => body);
    // When the log begins, on the clock that devices are told of: this process's own.
    const begunAt = (events[0]?.stamp.wallMs ?? 0) + performance.now() - Date.now();
    const beginnings: number[] = [];
    for (const [at, { id: studentId }] of open.students.entries()) {
      const key = keyCues(session.plan, { seed: session.seed, studentId, meanSeconds: null });
      const numbers = key.schedule?.cues.map((_, index) => index + 1) ?? [];
      const delivered = log
        .flatMap((body) => (body.kind === "delivered" && body.studentId === studentId ? body : []))
        .sort(inOrder);
      expect(delivered.map(({ cue }) => cue)).toEqual(numbers);
      // The device was told each at its moment of the key, and no other.
      const heard = devices[at]?.device.heard.flatMap((told) => (told.kind === "due" ? told : []));
      expect(heard?.map(({ cue }) => cue)).toEqual(numbers);
      for (const [index, told] of (heard ?? []).entries()) {
        beginnings.push(told.atServer - ((key.schedule?.cues[index] ?? 0) * 1_000) / speed);
      }
      const on = numbers.filter((cue) => cue % 3 !== 0).length;
      expect(counts.counts[at]?.self).toEqual({
        on: [on],
        off: [numbers.length - on],
        missing: [0],
      });
    }
    // All keys count from one moment: that of the log's first entry, and the time that it took to the disk.
    const [first = 0] = beginnings;
    for (const each of beginnings) expect(each).toBeCloseTo(first, 3);
    expect(first - begunAt).toBeGreaterThan(-2);
    expect(first - begunAt).toBeLessThan(200);
  }, 90_000);

  it("reach whoever sleeps or never joined not at all, whoever has a key by a touch, and others are refused", async () => {
    const open = await openRoom({
      clock: systemClock(speed),
      students: ["Fern", "Robin", "Ash", "Hazel"],
      plan: { ...plan, lengthSeconds: 200 },
    });
    room = open;
    const [fern = "", robin = "", ash = "", hazel = ""] = open.students.map(({ id }) => id);
    const one = await open.join(1);
    await answering(one);
    const two = await open.join(2);
    await answering(two, () => false);
    const { id, plan: ran, seed } = await open.start({ byTouchIds: [hazel] });
    expect(ran.recording).toBe("paper");
    const { session } = await one.hears("due");
    // Another's cue is none of this device's, whatever number it names.
    const twos = await two.hears("due");
    two.send({ kind: "mark", session, cue: 400, value: "on" });
    await two.hears("unkept", ({ cue }) => cue === 400);
    await one.hears("state", ({ is }) => is === "ended");
    const { counts } = await open.handlers.analysis.counts({ groupId: open.groupId }, open.context);
    const cards = await open.handlers.records.cards({ sessionId: id }, open.context);
    const log = await open.logOf(id);
    room = null;
    const state = replay(
      log.map((body, at) => ({
        stamp: { seq: at + 1, atMs: at, wallMs: at, offsetMinutes: 0 },
        body,
      })),
    );
    const keyed = (studentId: string) =>
      keyCues(ran, { seed, studentId, meanSeconds: null }).schedule?.cues.length ?? 0;
    const standings = (studentId: string) =>
      [...cuesOf(state, studentId).values()].map((cue) =>
        cue.standing === "undelivered" ? cue.reason : cue.standing === "delivered" ? cue.by : "",
      );
    expect(standings(fern)).toEqual(Array(keyed(fern)).fill("sight"));
    // It keeps its line and says nothing: asleep once twelve seconds are over.
    expect(standings(robin)).toHaveLength(keyed(robin));
    for (const why of standings(robin)) expect(["seat-asleep", "no-report"]).toContain(why);
    expect(standings(ash)).toEqual(Array(keyed(ash)).fill("seat-absent"));
    expect(standings(hazel)).toEqual(Array(keyed(hazel)).fill("touch"));
    expect(twos.cue).toBe(1);
    const selves = counts.map(({ self }) => self.missing[0]);
    expect(selves).toEqual([0, null, null, keyed(hazel)]);
    expect(cards.rows.map(({ cues }) => cues)).toEqual([keyed(fern), 0, 0, keyed(hazel)]);
  }, 60_000);
});
