import { describe, expect, it } from "vitest";
import { localDay } from "../../shared/calendar/local-day.ts";
import { manualClock } from "../support/manual-clock.ts";
import {
  pass,
  plan,
  rig,
  sessionId,
  settle,
  soundingWindow,
} from "../unit/electron/services/live/rig.ts";

const hour = 3_600_000;

/** A running session with a window, some seconds after its first cue. */
async function running(options: { wallMs?: number; offsetMinutes?: number } = {}) {
  const session = rig({ clock: manualClock(options) });
  session.begin();
  const window = soundingWindow(session.running, session.clock);
  await settle();
  const [first, second] = session.dueMs;
  if (first === undefined || second === undefined) throw new Error("too few cues");
  await pass(session.clock, first + 5_000);
  return { ...session, window, gapToNext: second - first - 5_000 };
}

type Running = Awaited<ReturnType<typeof running>>;

async function toTheEnd({ clock }: Running) {
  await pass(clock, plan.lengthSeconds * 1_000 + 5_000);
}

/** Every planned cue rang exactly once and was delivered at its planned session time. */
function expectEveryCueOnce({ window, dueMs, memory, errors }: Running) {
  expect(window.refusedReports).toEqual([]);
  expect(window.rung).toEqual(dueMs.map((_, index) => index + 1));
  const times = memory.events.flatMap(({ body, stamp }) =>
    body.kind === "delivered" ? [stamp.atMs] : [],
  );
  expect(times).toEqual(dueMs);
  expect(errors).toEqual([]);
}

const lastPause = ({ memory }: Running) =>
  memory.events.map(({ body }) => body).findLast((body) => body.kind === "paused");

for (const counted of [true, false]) {
  const system = counted ? "counts" : "does not count";
  describe(`sleep on a system whose monotonic clock ${system} it`, () => {
    it("heard of beforehand: the session waits, no cue is lost, none rings on waking", async () => {
      const session = await running();
      session.running.suspend();
      session.clock.sleep(hour, counted);
      session.running.wake();
      await settle();
      expect(lastPause(session)).toEqual({ kind: "paused", reason: "asleep" });
      expect(session.window.rung).toEqual([1]);
      await pass(session.clock, 60_000);
      expect(session.window.rung).toEqual([1]);
      session.running.resume(sessionId);
      await toTheEnd(session);
      expectEveryCueOnce(session);
    });

    it("never heard of: an hour's gap pauses the session all the same", async () => {
      const session = await running();
      session.clock.sleep(hour, counted);
      await pass(session.clock, 1_000);
      expect(lastPause(session)).toEqual({
        kind: "paused",
        reason: counted ? "asleep" : "clock-changed",
      });
      session.running.resume(sessionId);
      await toTheEnd(session);
      expectEveryCueOnce(session);
    });

    it("in the seconds between a cue's call and its moment: no cue rings late or twice", async () => {
      const session = await running();
      await pass(session.clock, session.gapToNext - 1_000);
      session.clock.sleep(hour, counted);
      await pass(session.clock, 5_000);
      session.running.resume(sessionId);
      await toTheEnd(session);
      const { window, dueMs } = session;
      expect(new Set(window.rung).size).toBe(window.rung.length);
      expect(session.verdicts().size).toBe(dueMs.length);
      expect(session.errors).toEqual([]);
    });
  });
}

describe("a computer that hangs for some seconds", () => {
  it("loses only the cues of those seconds, says asleep, and rings none of them afterwards", async () => {
    const session = await running();
    await pass(session.clock, session.gapToNext - 4_000);
    session.clock.sleep(10_000, true);
    await pass(session.clock, 5_000);
    expect(session.verdicts().get(2)).toBe("asleep");
    expect(session.window.rung).toEqual([1]);
    expect(lastPause(session)).toBeUndefined();
    await toTheEnd(session);
    expect(session.window.rung).toEqual(
      session.dueMs
        .map((_, index) => index + 1)

        .filter((cue) => cue !== 2),
    );
  });

  it("takes no cue for delivered that a window shows only on waking", async () => {
    const session = await running();
    await pass(session.clock, session.gapToNext - 1_000);
    // The cue was called; app and window hang past its moment, and the window is the first to say a word.
    session.clock.sleep(12_000, true);
    session.running.cueDelivered(sessionId, {
      cue: 2,
      beganMonotonicMs: session.clock.monotonicMs(),
      by: "sight",
      problem: "too-late",
    });
    await settle();
    expect(session.verdicts().get(2)).toBe("asleep");
    await pass(session.clock, 5_000);
    expect(session.verdicts().get(2)).toBe("asleep");
    expect(session.errors).toEqual([]);
  });

  it("hears of sleep for nothing: pauses, and goes on as if nothing had been", async () => {
    const session = await running();
    session.running.suspend();
    session.running.suspend();
    session.running.wake();
    expect(session.kinds().filter((kind) => kind === "paused")).toHaveLength(1);
    session.running.resume(sessionId);
    await toTheEnd(session);
    expectEveryCueOnce(session);
  });
});

describe("someone sets the clock", () => {
  it("an hour back: nothing happens to the session", async () => {
    const session = await running();
    session.clock.shiftWall(-hour);
    await toTheEnd(session);
    expect(lastPause(session)).toBeUndefined();
    expectEveryCueOnce(session);
  });

  it("an hour forward: the session waits, and no cue is added or lost", async () => {
    const session = await running();
    await pass(session.clock, session.gapToNext - 1_000);
    session.clock.shiftWall(hour);
    await pass(session.clock, 5_000);
    expect(lastPause(session)).toEqual({ kind: "paused", reason: "clock-changed" });
    session.running.resume(sessionId);
    await toTheEnd(session);
    expectEveryCueOnce(session);
  });

  it("by some seconds, as time servers do: nothing happens", async () => {
    const session = await running();
    session.clock.shiftWall(20_000);
    await toTheEnd(session);
    expect(lastPause(session)).toBeUndefined();
    expectEveryCueOnce(session);
  });
});

describe("a daylight-saving day", () => {
  // Berlin 2026-03-29: 02:00 CET becomes 03:00 CEST at 01:00 UTC (EU summer-time rule, Directive 2000/84/EC).
  it("changes only the offset that is stored beside each event", async () => {
    const wallMs = Date.UTC(2026, 2, 29, 0, 55);
    const session = await running({ wallMs, offsetMinutes: 60 });
    session.clock.setOffset(120);
    await toTheEnd(session);
    expectEveryCueOnce(session);
    const offsets = session.memory.events.map(({ stamp }) => stamp.offsetMinutes);
    expect(new Set(offsets)).toEqual(new Set([60, 120]));
  });

  it("keeps the school's local day on both sides of midnight", () => {
    expect(localDay(Date.UTC(2026, 2, 28, 22, 59), 60)).toBe("2026-03-28");
    expect(localDay(Date.UTC(2026, 2, 28, 23, 0), 60)).toBe("2026-03-29");
    expect(localDay(Date.UTC(2026, 2, 29, 22, 0), 120)).toBe("2026-03-30");
    expect(localDay(Date.UTC(2026, 0, 1, 4, 59), -300)).toBe("2025-12-31");
  });
});

describe("a window lost in mid-session", () => {
  it("costs the cues without one, and the next window goes on with the rest", async () => {
    const session = await running();
    await session.window.leave();
    await pass(session.clock, session.gapToNext + 1_000);
    expect(session.verdicts().get(2)).toBe("no-window");
    const next = soundingWindow(session.running, session.clock);
    await toTheEnd(session);
    expect(next.rung).toEqual(session.dueMs.map((_, index) => index + 1).slice(2));
  });
});

describe("the app dies and starts again", () => {
  it("settles the called cue, offers the session, and goes on where its log ends", async () => {
    const session = await running();
    await pass(session.clock, session.gapToNext - 1_000);
    const atMs = session.memory.events.at(-1)?.stamp.atMs ?? 0;
    await session.window.leave();
    session.running.stop();
    session.clock.advance(hour);
    const reopened = session.reopen();
    expect(session.verdicts().get(2)).toBe("app-closed");
    expect(lastPause(session)).toEqual({ kind: "paused", reason: "app-closed" });
    expect(reopened.liveId()).toBeNull();
    const window = soundingWindow(reopened, session.clock);
    await pass(session.clock, 60_000);
    reopened.resume(sessionId);
    expect(reopened.clockNow().sessionMs).toBe(atMs);
    await toTheEnd(session);
    expect(window.rung).toEqual(session.dueMs.map((_, index) => index + 1).slice(2));
    expect(session.memory.events.at(-1)?.body).toEqual({ kind: "ended", reason: "finished" });
  });

  it("closes it with the remaining cues not counted", async () => {
    const session = await running();
    session.running.stop();
    const reopened = session.reopen();
    reopened.end(sessionId);
    expect(session.memory.events.at(-1)?.body).toEqual({ kind: "ended", reason: "closed-later" });
    expect(session.verdicts().size).toBe(1);
  });

  it("twice in a row: recovering again adds nothing", async () => {
    const session = await running();
    session.running.stop();
    session.reopen().stop();
    const count = session.memory.events.length;
    session.reopen();
    expect(session.memory.events).toHaveLength(count);
  });
});
