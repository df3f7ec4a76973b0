import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { SessionEventBody } from "../../../../../shared/session/event.ts";
import { replay } from "../../../../../shared/session/reduce.ts";
import { heldAnswers } from "../../../../../src/live/tiles/held-answers.ts";

const stamp = { atMs: 0, wallMs: 0, offsetMinutes: 0 };
const stateAfter = (...bodies: SessionEventBody[]) =>
  replay(bodies.map((body, index) => ({ stamp: { ...stamp, seq: index + 1 }, body })));

const called = (cue: number): SessionEventBody => ({ kind: "announced", cue });
const shown = (cue: number): SessionEventBody => ({
  kind: "delivered",
  cue,
  by: "sight",
  latenessMs: 0,
  problem: null,
});
const unseen = (cue: number): SessionEventBody => ({
  kind: "undelivered",
  cue,
  reason: "sound-failed",
});

describe("an answer between the sign's painting and the log's word of it", () => {
  it("waits, and goes on its way when the log has the cue as shown", async () => {
    const held = heldAnswers();
    held.look(stateAfter(called(1)));
    let said: boolean | null = null;
    const waiting = held.until(1).then((isDelivered) => {
      said = isDelivered;
    });
    await Promise.resolve();
    expect(said).toBeNull();
    held.look(stateAfter(called(1), shown(1)));
    await waiting;
    expect(said).toBe(true);
  });

  it("asks nothing of a cue that did not reach the class, and lets go when the tiles go", async () => {
    const held = heldAnswers();
    const [unshown, dropped] = [held.until(1), held.until(2)];
    held.look(stateAfter(called(1), unseen(1), called(2)));
    expect(await unshown).toBe(false);
    held.drop();
    expect(await dropped).toBe(false);
  });

  it("gets the log's verdict on its own cue, whenever it was given and whatever came before", async () => {
    const verdict = fc.record({
      isShown: fc.boolean(),
      answered: fc.constantFrom("before", "after"),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(verdict, { minLength: 1, maxLength: 12 }), async (cues) => {
        const held = heldAnswers();
        const log: SessionEventBody[] = [];
        const heard: Promise<boolean>[] = [];
        for (const [index, { isShown, answered }] of cues.entries()) {
          const cue = index + 1;
          log.push(called(cue));
          held.look(stateAfter(...log));
          if (answered === "before") heard.push(held.until(cue));
          log.push(isShown ? shown(cue) : unseen(cue));
          held.look(stateAfter(...log));
          if (answered === "after") heard.push(held.until(cue));
        }
        expect(await Promise.all(heard)).toEqual(cues.map(({ isShown }) => isShown));
      }),
    );
  });
});
