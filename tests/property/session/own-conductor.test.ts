import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Refusal } from "../../../electron/services/base/refusal.ts";
import { ownSchedule } from "../../../shared/schedule/own-schedule.ts";
import { unsettledCues } from "../../../shared/session/state.ts";
import { ids, own, ownRoom } from "../../unit/electron/services/live/own-rig.ts";
import { pass, sessionId, settle } from "../../unit/electron/services/live/rig.ts";

// Everything that can befall a session of own cues in a classroom, in any order.
const students = ids.slice(0, 3);
const studentId = fc.constantFrom(...students);
const trouble = fc.oneof(
  { arbitrary: fc.record({ kind: fc.constant("pass" as const), ms: fc.nat(60_000) }), weight: 6 },
  fc.record({ kind: fc.constantFrom("pause", "resume", "suspend", "wake", "fail", "crash") }),
  fc.record({ kind: fc.constantFrom("doze", "rouse", "aside", "back"), studentId }),
  fc.record({
    kind: fc.constant("sleep" as const),
    ms: fc.nat(120_000),
    counted: fc.boolean(),
  }),
);

const lengthSeconds = 240;
const settings = { ...own, meanSeconds: 20, shortestGapSeconds: 5, lengthSeconds };

describe("whatever happens to a session of own cues", () => {
  it("each student's cues have one verdict each, and what a device shows is told of it alone", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(trouble, { maxLength: 20 }),
        fc.option(studentId),
        async (troubles, touched) => {
          const byTouch = touched === null ? [] : [touched];
          const here = ownRoom({ settings, students, byTouch });
          here.begin();
          let running = here.running;
          const asked = (work: () => unknown) => {
            try {
              work();
            } catch (error) {
              if (!(error instanceof Refusal) && !String(error).includes("disk full")) throw error;
            }
          };
          const aside = (id: string, isAside: boolean) =>
            running.command(sessionId, { kind: "set-aside", studentId: id, aside: isAside });
          for (const what of troubles) {
            await settle();
            if (what.kind === "pass") await pass(here.clock, what.ms, 500);
            else if (what.kind === "sleep") here.clock.sleep(what.ms, what.counted);
            else if (what.kind === "pause") asked(() => running.pause(sessionId));
            else if (what.kind === "resume") asked(() => running.resume(sessionId));
            else if (what.kind === "suspend") asked(() => running.suspend());
            else if (what.kind === "wake") asked(() => running.wake());
            else if (what.kind === "doze") here.asleep.set(what.studentId, "seat-asleep");
            else if (what.kind === "rouse") here.asleep.delete(what.studentId);
            else if (what.kind === "aside") asked(() => aside(what.studentId, true));
            else if (what.kind === "back") asked(() => aside(what.studentId, false));
            else if (what.kind === "fail") {
              here.memory.fail(true);
              await pass(here.clock, 1_000);
              here.memory.fail(false);
            } else {
              running.stop();
              running = here.reopen();
            }
          }
          asked(() => running.resume(sessionId));
          await settle();
          await pass(here.clock, (lengthSeconds + 10) * 1_000, 500);

          const state = here.state();
          expect(state).toMatchObject({ status: "ended", endReason: "finished" });
          expect(unsettledCues(state)).toEqual([]);
          expect(state.cues.size).toBe(0);
          const verdicts = here.memory.events.flatMap(({ body }) =>
            body.kind === "delivered" || body.kind === "undelivered"
              ? [`${body.studentId}/${body.cue}`]
              : [],
          );
          expect(new Set(verdicts).size).toBe(verdicts.length);
          const planned = ownSchedule(settings, "twenty-four", students);
          expect(verdicts.toSorted()).toEqual(
            planned.map((cue) => `${cue.studentId}/${cue.cue}`).toSorted(),
          );
          expect(here.calls.some((call) => call.studentId === touched)).toBe(false);
          const times = here.memory.events.map(({ stamp }) => stamp.atMs);
          expect(times).toEqual(times.toSorted((first, second) => first - second));
          running.stop();
        },
      ),
      { numRuns: 60 },
    );
  });
});
