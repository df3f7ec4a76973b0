import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Refusal } from "../../../electron/services/base/refusal.ts";
import { replay } from "../../../shared/session/reduce.ts";
import { unconfirmedCues } from "../../../shared/session/state.ts";
import { manualClock } from "../../support/manual-clock.ts";
import {
  pass,
  plan,
  rig,
  sessionId,
  sessionWith,
  settle,
  soundingWindow,
} from "../../unit/electron/services/live/rig.ts";

// Everything that can befall a session in a classroom, in any order.
const trouble = fc.oneof(
  { arbitrary: fc.record({ kind: fc.constant("pass" as const), ms: fc.nat(90_000) }), weight: 6 },
  fc.record({
    kind: fc.constantFrom("pause", "resume", "skip", "suspend", "wake", "fail", "crash"),
  }),
  fc.record({ kind: fc.constantFrom("leave", "join", "mute", "unmute") }),
  fc.record({
    kind: fc.constant("sleep" as const),
    ms: fc.nat(120_000),
    counted: fc.boolean(),
  }),
  fc.record({
    kind: fc.constant("shift" as const),
    ms: fc.integer({ min: -7_200_000, max: 7_200_000 }),
  }),
);

const short = sessionWith({ ...plan, meanSeconds: 20, shortestGapSeconds: 5, lengthSeconds: 300 });

describe("whatever happens to a session", () => {
  it("no cue rings twice, each has one verdict, and the session can always be finished", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(trouble, { maxLength: 25 }), async (troubles) => {
        const here = rig({ session: short, clock: manualClock() });
        here.begin();
        let running = here.running;
        const windows = [soundingWindow(running, here.clock)];
        const asked = (work: () => unknown) => {
          try {
            work();
          } catch (error) {
            if (!(error instanceof Refusal) && !String(error).includes("disk full")) throw error;
          }
        };
        for (const what of troubles) {
          await settle();
          const window = windows.at(-1);
          if (what.kind === "pass") await pass(here.clock, what.ms, 500);
          else if (what.kind === "sleep") here.clock.sleep(what.ms, what.counted);
          else if (what.kind === "shift") here.clock.shiftWall(what.ms);
          else if (what.kind === "pause") asked(() => running.pause(sessionId));
          else if (what.kind === "resume") asked(() => running.resume(sessionId));
          else if (what.kind === "skip") asked(() => running.skip(sessionId));
          else if (what.kind === "suspend") asked(() => running.suspend());
          else if (what.kind === "wake") asked(() => running.wake());
          else if (what.kind === "leave") await window?.leave();
          else if (what.kind === "join") windows.push(soundingWindow(running, here.clock));
          else if (what.kind === "mute") window?.report(false);
          else if (what.kind === "unmute") window?.report(true);
          else if (what.kind === "fail") {
            here.memory.fail(true);
            await pass(here.clock, 1_000);
            here.memory.fail(false);
          } else if (what.kind === "crash") {
            for (const open of windows) await open.leave();
            running.stop();
            running = here.reopen();
            windows.push(soundingWindow(running, here.clock));
          }
        }
        asked(() => running.resume(sessionId));
        // What this told the windows reaches them at once, not half a second later.
        await settle();
        await pass(here.clock, 310_000, 500);

        const rung = windows.flatMap((window) => window.rung);
        expect(new Set(rung).size).toBe(rung.length);
        const verdicts = here.memory.events.flatMap(({ body }) =>
          body.kind === "delivered" || body.kind === "undelivered" ? [body.cue] : [],
        );
        expect(new Set(verdicts).size).toBe(verdicts.length);
        const state = replay(here.memory.events);
        expect(state.status).toBe("ended");
        expect(state.endReason).toBe("finished");
        expect(state.atMs).toBe(300_000);
        expect(unconfirmedCues(state)).toEqual([]);
        expect(verdicts.length).toBe(here.dueMs.length);
        // Session time only ever goes on.
        const times = here.memory.events.map(({ stamp }) => stamp.atMs);
        expect(times).toEqual(times.toSorted((first, second) => first - second));
        running.stop();
        expect(here.clock.pending()).toBeLessThan(200);
      }),
      {
        numRuns: 60,
        examples: [
          [
            [
              { kind: "pass", ms: 146_874 },
              { kind: "shift", ms: 30_001 },
              { kind: "pass", ms: 10 },
            ],
          ],
        ],
      },
    );
  });
});
