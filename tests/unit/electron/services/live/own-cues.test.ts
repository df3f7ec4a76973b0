import { describe, expect, it } from "vitest";
import { cuesOf } from "../../../../../shared/session/state.ts";
import { keyCues } from "../../../../../src/print/key-cues.ts";
import { ids, own, ownRoom } from "./own-rig.ts";
import { pass, sessionId, settle, soundingWindow } from "./rig.ts";

// A live session has to equal the printed keys; what else is expected is by hand from the design of seats.

const keyOf = (studentId: string) =>
  keyCues(own, { seed: "twenty-four", studentId, meanSeconds: null }).schedule?.cues ?? [];
const wholeMs = own.lengthSeconds * 1_000 + 4_000;

describe("a live session of own cues", () => {
  it("equals the 24 printed keys, cue for cue", async () => {
    const { begin, clock, state, memory, unwritten } = ownRoom();
    begin();
    await pass(clock, wholeMs);
    for (const studentId of ids) {
      const cues = [...cuesOf(state(), studentId)].sort(([one], [other]) => one - other);
      expect(cues.map(([cue]) => cue)).toEqual(keyOf(studentId).map((_, at) => at + 1));
      for (const [cue, record] of cues) {
        const atMs = (keyOf(studentId)[cue - 1] ?? 0) * 1_000;
        expect(record).toMatchObject({
          standing: "delivered",
          by: "sight",
          atMs: Math.round(atMs),
        });
      }
    }
    expect(state()).toMatchObject({ status: "ended", endReason: "finished" });
    expect(unwritten).toEqual([]);
    expect(
      memory.events.filter(({ body }) => body.kind === "delivered" && !body.studentId),
    ).toEqual([]);
  });

  it("tells each device of its own next cue alone, 2.5 s ahead, and no window", async () => {
    const { begin, clock, calls, running } = ownRoom();
    begin();
    const window = soundingWindow(running, clock);
    await settle();
    const first = Math.min(...ids.map((id) => keyOf(id)[0] ?? Number.POSITIVE_INFINITY)) * 1_000;
    await pass(clock, first - 2_501, 1_000);
    expect(calls).toEqual([]);
    await pass(clock, 1);
    expect(calls).toMatchObject([{ kind: "announced", cue: 1, dueMonotonicMs: first }]);
    expect(keyOf(calls[0]?.studentId ?? "")[0]).toBe(first / 1_000);
    await pass(clock, 60_000);
    expect(window.rung).toEqual([]);
    expect(() => running.skip(sessionId)).toThrow();
  });

  it("says of a sleeping seat why its cues came to nobody, and of an absent student too", async () => {
    const [sleeper = "", gone = "", back = ""] = ids;
    const { begin, clock, state, asleep, running } = ownRoom({ aside: [gone, back] });
    asleep.set(sleeper, "seat-asleep");
    begin();
    const half = own.lengthSeconds * 500;
    await pass(clock, half);
    running.command(sessionId, { kind: "set-aside", studentId: back, aside: false });
    await pass(clock, wholeMs - half);
    const of = (id: string) => [...cuesOf(state(), id)];
    for (const [, record] of of(sleeper)) expect(record).toMatchObject({ reason: "seat-asleep" });
    for (const [, record] of of(gone)) expect(record).toMatchObject({ reason: "seat-absent" });
    expect(of(sleeper)).toHaveLength(keyOf(sleeper).length);
    for (const [cue, record] of of(back)) {
      const isThere = (keyOf(back)[cue - 1] ?? 0) * 1_000 > half;
      expect(record.standing).toBe(isThere ? "delivered" : "undelivered");
    }
  });

  it("gives whoever has no device their key's moments, by a touch", async () => {
    const [paper = ""] = ids;
    const { begin, clock, state, calls } = ownRoom({ byTouch: [paper] });
    begin();
    await pass(clock, wholeMs);
    const cues = [...cuesOf(state(), paper).values()];
    expect(cues).toHaveLength(keyOf(paper).length);
    for (const record of cues) expect(record).toMatchObject({ by: "touch", latenessMs: null });
    expect(calls.some(({ studentId }) => studentId === paper)).toBe(false);
  });

  it("takes back what is still to come at a pause, and gives it after the resume", async () => {
    const { begin, clock, state, calls, running } = ownRoom();
    begin();
    const [first = ""] = ids;
    const due = (keyOf(first)[0] ?? 0) * 1_000;
    await pass(clock, due - 1_000);
    running.pause(sessionId);
    expect(calls).toContainEqual({ kind: "cancelled", studentId: first, cue: 1 });
    await pass(clock, 60_000);
    expect(cuesOf(state(), first).get(1)?.standing).toBe("announced");
    running.resume(sessionId);
    await pass(clock, 1_500);
    expect(cuesOf(state(), first).get(1)).toMatchObject({ standing: "delivered" });
  });

  it("settles after a crash what was called, and goes on with everybody's next", async () => {
    const { begin, clock, state, running, reopen } = ownRoom();
    begin();
    const [first = ""] = ids;
    await pass(clock, (keyOf(first)[0] ?? 0) * 1_000 - 1_000);
    running.stop();
    const again = reopen();
    expect(cuesOf(state(), first).get(1)).toMatchObject({ reason: "app-closed" });
    again.resume(sessionId);
    await pass(clock, wholeMs);
    for (const studentId of ids) {
      expect(cuesOf(state(), studentId).size).toBe(keyOf(studentId).length);
    }
    expect(state().status).toBe("ended");
  });
});
