import { describe, expect, it } from "vitest";
import { Refusal } from "../../../../../electron/services/base/refusal.ts";
import type { CueCall, CueMeans } from "../../../../../shared/api/sessions.ts";
import type { SessionEvent } from "../../../../../shared/session/event.ts";
import { manualClock } from "../../../../support/manual-clock.ts";
import { pass, plan, rig, sessionId, sessionWith, settle, soundingWindow } from "./rig.ts";

const student = "0190a000-0000-7000-8000-000000000001";
const markOn = (cue: number) =>
  ({ kind: "mark", studentId: student, cue, value: "on", way: "screen" }) as const;
const refusal = (code: string) => expect.objectContaining({ constructor: Refusal, code });

function codeOf(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    if (error instanceof Refusal) return error.code;
    throw error;
  }
  return "allowed";
}

/** Runs on until just before a cue is due, in session ms from now. */
const until = (due: number | undefined, ms: number): number => {
  if (due === undefined) throw new Error("The session has too few cues for this test");
  return due - ms;
};

describe("a session with one window", () => {
  it("delivers every planned cue at its moment, then ends itself at its length", async () => {
    const { begin, clock, running, dueMs, verdicts, memory, live, errors } = rig();
    begin();
    const window = soundingWindow(running, clock);
    await settle();
    await pass(clock, plan.lengthSeconds * 1_000 + 500);
    expect(window.rung).toEqual(dueMs.map((_, index) => index + 1));
    expect([...verdicts().values()]).toEqual(dueMs.map(() => "delivered"));
    for (const { body, stamp } of memory.events) {
      if (body.kind !== "delivered") continue;
      expect(stamp.atMs).toBe(dueMs[body.cue - 1]);
      expect(body.latenessMs).toBeCloseTo(0, 6);
    }
    expect(memory.events.at(-1)?.body).toEqual({ kind: "ended", reason: "finished" });
    expect(memory.events.at(-1)?.stamp.atMs).toBe(plan.lengthSeconds * 1_000);
    expect(live).toEqual([true, false]);
    expect(errors).toEqual([]);
  });

  it("tells of a cue 2.5 s ahead, after `announced` is in the log", async () => {
    const { begin, clock, running, dueMs, memory } = rig();
    begin();
    const window = soundingWindow(running, clock);
    await settle();
    clock.advance(until(dueMs[0], 2_501));
    await settle();
    expect(window.calls).toEqual([task(true)]);
    clock.advance(1);
    expect(memory.events.at(-1)?.body).toEqual({ kind: "announced", cue: 1 });
    await settle();
    expect(window.calls.at(-1)).toEqual({ kind: "announced", cue: 1, dueMonotonicMs: dueMs[0] });
  });

  it("sounds nothing that could not be written, and goes on when the disk does", async () => {
    const { begin, clock, running, dueMs, memory, errors } = rig();
    begin();
    const window = soundingWindow(running, clock);
    await settle();
    await pass(clock, until(dueMs[0], 4_000));
    memory.fail(true);
    await pass(clock, 8_000);
    expect(window.rung).toEqual([]);
    expect(errors.length).toBeGreaterThan(0);
    expect(() => running.pause(sessionId)).toThrow("disk full");
    memory.fail(false);
    await pass(clock, until(dueMs[1], 0) - until(dueMs[0], 0));
    expect(window.rung).toEqual([2]);
  });

  it("calls a cue off that nobody reports within 3 s", async () => {
    const { begin, clock, running, dueMs, verdicts } = rig();
    begin();
    const window = soundingWindow(running, clock);
    window.report(false);
    await settle();
    await pass(clock, until(dueMs[0], -2_900));
    expect(verdicts().size).toBe(0);
    await pass(clock, 200);
    expect(verdicts().get(1)).toBe("no-report");
    // The report that comes after the verdict changes nothing and is no error.
    const late = {
      cue: 1,
      beganMonotonicMs: clock.monotonicMs(),
      by: "sound",
      problem: null,
    } as const;
    running.cueDelivered(sessionId, late);
    expect(verdicts().get(1)).toBe("no-report");
  });

  it("keeps a failure of sound as the reason, and takes reports twice", async () => {
    const { begin, clock, running, dueMs, verdicts, memory } = rig();
    begin();
    const window = soundingWindow(running, clock);
    window.report(false);
    await settle();
    await pass(clock, until(dueMs[0], 1_000));
    running.cueUndelivered(sessionId, 1, "load-failed");
    running.cueUndelivered(sessionId, 1, "load-failed");
    expect(verdicts().get(1)).toBe("sound-failed");
    const failed = memory.events.filter(({ body }) => body.kind === "undelivered");
    expect(failed.map(({ body }) => body)).toEqual([
      { kind: "undelivered", cue: 1, reason: "sound-failed", problem: "load-failed" },
    ]);
    expect(codeOf(() => running.cueUndelivered(sessionId, 9, null))).toBe("cue-unknown");
    expect(() =>
      running.cueDelivered(sessionId, { cue: 9, beganMonotonicMs: 0, by: "sight", problem: null }),
    ).toThrow(refusal("cue-unknown"));
  });
});

const task = (yours: boolean, can: CueMeans = "sound", windows = 1): CueCall => ({
  kind: "sounder",
  yours,
  can,
  windows,
});

describe("windows that come and go", () => {
  it("without a window each cue is not delivered: no window", async () => {
    const { begin, clock, dueMs, verdicts } = rig();
    begin();
    await pass(clock, plan.lengthSeconds * 1_000 + 100, 1_000);
    expect([...verdicts().values()]).toEqual(dueMs.map(() => "no-window"));
  });

  it("gives the task to one window and passes it on", async () => {
    const { begin, clock, running, dueMs, verdicts } = rig();
    begin();
    const first = soundingWindow(running, clock);
    const second = soundingWindow(running, clock);
    await settle();
    expect(second.calls).toEqual([task(false, "sound", 2)]);
    await pass(clock, until(dueMs[1], 60_000 > until(dueMs[1], 0) ? 0 : -100));
    expect(second.rung).toEqual([]);
    const heard = first.rung.length;
    await first.leave();
    expect(second.calls.at(-1)).toEqual(task(true));
    await pass(clock, plan.lengthSeconds * 1_000);
    expect(second.rung.length).toBe(dueMs.length - heard);
    expect([...verdicts().values()].every((verdict) => verdict === "delivered")).toBe(true);
  });

  it("never gives a cue of the next moment to a second window: it might sound twice", async () => {
    const { begin, clock, running, dueMs, verdicts } = rig();
    begin();
    const first = soundingWindow(running, clock);
    await settle();
    await pass(clock, until(dueMs[0], 450));
    await first.leave();
    const second = soundingWindow(running, clock);
    await pass(clock, 4_500);
    expect(second.rung).toEqual([]);
    expect(verdicts().get(1)).toBe("no-report");
  });

  it("gives a cue that is further ahead to the next window when the line of the first is gone", async () => {
    const { begin, clock, running, dueMs, verdicts } = rig();
    begin();
    const first = soundingWindow(running, clock);
    await settle();
    await pass(clock, until(dueMs[0], 1_000));
    await first.leave();
    const second = soundingWindow(running, clock);
    await pass(clock, 4_500);
    expect([first.rung, second.rung]).toEqual([[], [1]]);
    expect(verdicts().get(1)).toBe("delivered");
  });

  it("gives a called cue to a window that has just become the better one, and to it alone", async () => {
    const { begin, clock, running, dueMs, verdicts } = rig();
    begin();
    const first = soundingWindow(running, clock, "sees", "sight");
    await settle();
    await pass(clock, until(dueMs[0], 1_000));
    const second = soundingWindow(running, clock, "sounds", "sound");
    await pass(clock, 4_500);
    expect([first.rung, second.rung]).toEqual([[], [1]]);
    expect(verdicts().get(1)).toBe("delivered");
  });

  it("gives a called cue to another window when the first says that it goes", async () => {
    const { begin, clock, running, dueMs, verdicts } = rig();
    begin();
    const first = soundingWindow(running, clock);
    const second = soundingWindow(running, clock);
    await settle();
    await pass(clock, until(dueMs[0], 1_000));
    await first.close();
    await settle();
    await pass(clock, 4_500);
    expect(first.rung).toEqual([]);
    expect(second.rung).toEqual([1]);
    expect(verdicts().get(1)).toBe("delivered");
  });

  it("gives a called cue to the same window when it has been loaded again in time", async () => {
    const { begin, clock, running, dueMs, verdicts } = rig();
    begin();
    const before = soundingWindow(running, clock);
    await settle();
    await pass(clock, until(dueMs[0], 1_500));
    await before.close();
    await pass(clock, 800);
    const after = soundingWindow(running, clock);
    await settle();
    await pass(clock, 4_500);
    expect([before.rung, after.rung]).toEqual([[], [1]]);
    expect(verdicts().get(1)).toBe("delivered");
  });

  it("without another window such a cue is not delivered: no window", async () => {
    const { begin, clock, running, dueMs, verdicts } = rig();
    begin();
    const window = soundingWindow(running, clock);
    await settle();
    await pass(clock, until(dueMs[0], 1_000));
    await window.close();
    await pass(clock, 4_500);
    expect(verdicts().get(1)).toBe("no-window");
  });

  it("drops a window that lets its calls lie", async () => {
    const { begin, running, clock } = rig({
      session: sessionWith({ ...plan, law: "fixed", meanSeconds: 6, shortestGapSeconds: 0 }),
    });
    begin();
    const deaf = running.cueCalls(sessionId, "gone", "sound", new AbortController().signal);
    expect((await deaf.next()).value).toEqual(task(true));
    await pass(clock, 600_000, 1_000);
    const window = soundingWindow(running, clock);
    await settle();
    expect(window.calls).toEqual([task(true)]);
  });

  it("lets a reader leave before its first step", async () => {
    const { begin, running, clock } = rig();
    begin();
    const gone = running.cueCalls(sessionId, "gone", "sound", new AbortController().signal);
    await gone.return?.();
    const window = soundingWindow(running, clock);
    await settle();
    expect(window.calls).toEqual([task(true)]);
  });
});

describe("who gives the cues", () => {
  it("is the window that can sound them, whichever asked first, and says so to all", async () => {
    const { begin, clock, running, dueMs } = rig();
    begin();
    const blocked = soundingWindow(running, clock, "blocked", "none");
    const board = soundingWindow(running, clock, "board", "sight");
    await settle();
    expect(blocked.calls).toEqual([task(true, "none"), task(false, "sight", 2)]);
    const able = soundingWindow(running, clock, "able", "none");
    await settle();
    able.means("sound");
    await settle();
    for (const [window, yours] of [
      [blocked, false],
      [board, false],
      [able, true],
    ] as const) {
      expect(window.calls.at(-1)).toEqual(task(yours, "sound", 3));
    }
    await pass(clock, until(dueMs[0], -100));
    expect([blocked.rung, board.rung, able.rung]).toEqual([[], [], [1]]);
  });

  it("keeps the task while no other does it better, and loses it with its sound", async () => {
    const { begin, clock, running } = rig();
    begin();
    const first = soundingWindow(running, clock);
    const second = soundingWindow(running, clock);
    await settle();
    expect([first.calls.at(-1), second.calls.at(-1)]).toEqual([
      task(true, "sound", 2),
      task(false, "sound", 2),
    ]);
    first.means("sight");
    first.means("sound");
    await settle();
    // It has its sound back, but the other one has the task by now.
    expect([first.calls.at(-1), second.calls.at(-1)]).toEqual([
      task(false, "sound", 2),
      task(true, "sound", 2),
    ]);
  });

  it("is never two windows at a time, whoever comes, goes and falls silent", async () => {
    const { begin, clock, running, dueMs, verdicts } = rig();
    begin();
    const open: ReturnType<typeof soundingWindow>[] = [];
    const all: typeof open = [];
    const means = ["sound", "sight", "none"] as const;
    for (let step = 0; step < 240; step++) {
      const turn = step % 7;
      if (turn < 2) {
        const window = soundingWindow(running, clock);
        open.push(window);
        all.push(window);
      }
      if (turn === 3) await open.shift()?.close();
      if (turn === 5) await open.pop()?.leave();
      open[step % 3]?.means(means[step % 3] ?? "none");
      await pass(clock, 5_000, 500);
    }
    const rung = all.flatMap((window) => window.rung);
    expect(rung.length).toBe(new Set(rung).size);
    expect(rung.length).toBeGreaterThan(dueMs.length / 2);
    for (const cue of rung) expect(verdicts().get(cue)).toBe("delivered");
  });
});

describe("pausing, skipping, ending", () => {
  it("shifts later cues by the pause and rings a cue that was taken back once, after it", async () => {
    const { begin, clock, running, dueMs, memory } = rig();
    begin();
    const window = soundingWindow(running, clock);
    await settle();
    await pass(clock, until(dueMs[0], 1_000));
    running.pause(sessionId);
    await settle();
    expect(window.calls.at(-1)).toEqual({ kind: "cancelled", cue: 1 });
    await pass(clock, 300_000, 1_000);
    expect(window.rung).toEqual([]);
    running.resume(sessionId);
    await settle();
    await pass(clock, 1_100);
    expect(window.rung).toEqual([1]);
    await pass(clock, plan.lengthSeconds * 1_000);
    expect(window.rung).toEqual(dueMs.map((_, index) => index + 1));
    const times = memory.events.flatMap(({ body, stamp }) =>
      body.kind === "delivered" ? [stamp.atMs] : [],
    );
    expect(times).toEqual(dueMs);
  });

  it("skips the next cue, called or not, and says which", async () => {
    const { begin, clock, running, dueMs, verdicts } = rig();
    begin();
    const window = soundingWindow(running, clock);
    await settle();
    expect(running.skip(sessionId)).toBe(1);
    await pass(clock, until(dueMs[1], 1_000));
    expect(running.skip(sessionId)).toBe(2);
    await pass(clock, 5_000);
    expect(window.rung).toEqual([]);
    expect([verdicts().get(1), verdicts().get(2)]).toEqual(["skipped", "skipped"]);
  });

  it("ends at once when the teacher says so and settles the called cue", async () => {
    const { begin, clock, running, dueMs, verdicts, kinds } = rig();
    begin();
    const window = soundingWindow(running, clock);
    await settle();
    await pass(clock, until(dueMs[0], 1_000));
    running.end(sessionId);
    running.end(sessionId);
    expect(verdicts().get(1)).toBe("session-ended");
    expect(kinds().filter((kind) => kind === "ended")).toHaveLength(1);
    await pass(clock, 10_000);
    expect(window.rung).toEqual([]);
    expect(codeOf(() => running.pause(sessionId))).toBe("session-ended");
    expect(codeOf(() => running.skip(sessionId))).toBe("session-ended");
    expect(running.liveId()).toBeNull();
  });

  it("takes the last marks for 60 s after the end, then closes its streams", async () => {
    const { begin, clock, running, dueMs } = rig();
    begin();
    soundingWindow(running, clock);
    await settle();
    await pass(clock, until(dueMs[0], -500));
    const seen: SessionEvent[] = [];
    let over = false;
    void (async () => {
      for await (const event of running.watch(sessionId, 0, new AbortController().signal)) {
        seen.push(event);
      }
      over = true;
    })();
    running.end(sessionId);
    await pass(clock, 59_000, 1_000);
    expect(codeOf(() => running.command(sessionId, markOn(1)))).toBe("allowed");
    await pass(clock, 2_000);
    expect(over).toBe(true);
    expect(seen.at(-1)?.body).toMatchObject({ kind: "mark", late: true });
    expect(codeOf(() => running.command(sessionId, { ...markOn(1), value: "off" }))).toBe(
      "session-ended",
    );
  });
});

describe("a clock at 60 times its speed", () => {
  it("calls each cue before its moment and never two that are both to come", async () => {
    const clock = manualClock({ speed: 60 });
    const { begin, running, dueMs, verdicts, memory } = rig({ clock });
    begin();
    const window = soundingWindow(running, clock);
    await settle();
    await pass(clock, 20_100, 10);
    expect([...verdicts().values()]).toEqual(dueMs.map(() => "delivered"));
    expect(window.rung).toHaveLength(dueMs.length);
    let toCome = 0;
    for (const { body } of memory.events) {
      if (body.kind === "announced") toCome++;
      if (body.kind === "delivered") toCome--;
      expect(toCome).toBeLessThanOrEqual(1);
    }
  });
});

describe("watching", () => {
  it("replays after a place in the log and then follows", async () => {
    const { begin, running } = rig();
    begin();
    const leaving = new AbortController();
    const seen: number[] = [];
    const reading = (async () => {
      for await (const { stamp } of running.watch(sessionId, 1, leaving.signal)) {
        seen.push(stamp.seq);
      }
    })();
    running.command(sessionId, { kind: "interruption", note: "one" });
    await settle();
    running.command(sessionId, { kind: "interruption", note: "two" });
    await settle();
    expect(seen).toEqual([2, 3]);
    leaving.abort();
    await reading;
  });

  it("holds nothing back and loses nothing for a reader that is slow", async () => {
    const { begin, running, memory } = rig();
    begin();
    const slow = running.watch(sessionId, 0, new AbortController().signal);
    const first = await slow.next();
    expect(first.value?.stamp.seq).toBe(1);
    for (let n = 0; n < 500; n++) running.command(sessionId, { kind: "note", text: `${n}` });
    expect(memory.events).toHaveLength(501);
    for (let seq = 2; seq <= 501; seq++) {
      expect((await slow.next()).value?.stamp.seq).toBe(seq);
    }
    const waiting = slow.next();
    await slow.return?.();
    expect((await waiting).done).toBe(true);
  });
});
