import { describe, expect, it } from "vitest";
import type { CheckedSession } from "../../../../shared/agreement/check-fading.ts";
import { checkStanding } from "../../../../shared/agreement/check-step.ts";

// The steps and counts are common practice, no source; these tests hold the rule as it is written down:
// three sessions and ten compared cues at 80 % or more for each thinner step.

// Off is seen at half of the cues.
const session = (matching: number, compared: number): CheckedSession => ({
  matching,
  compared,
  seenOn: compared / 2,
});
const times = (count: number, each: CheckedSession) => Array.from({ length: count }, () => each);
const checkStepAfter = (sessions: readonly CheckedSession[]) => checkStanding(sessions).every;
const held = session(4, 4);
const missed = session(1, 4);

describe("the step at which checks stand", () => {
  it("is every cue before anything was checked", () => {
    expect(checkStepAfter([])).toBe(1);
  });

  it("stays at every cue until three sessions held", () => {
    expect(checkStepAfter(times(2, session(9, 10)))).toBe(1);
    expect(checkStepAfter(times(3, held))).toBe(2);
  });

  it("stays until ten cues were compared, however many sessions that takes", () => {
    expect(checkStepAfter(times(9, session(1, 1)))).toBe(1);
    expect(checkStepAfter(times(10, session(1, 1)))).toBe(2);
  });

  it.each([
    [3, 2],
    [5, 2],
    [6, 4],
    [8, 4],
    [9, 10],
    [30, 10],
  ])("counts anew at each step: after %i sessions that held it is every %i", (count, every) => {
    expect(checkStepAfter(times(count, held))).toBe(every);
  });

  it("goes straight back to every cue when agreement falls, and climbs again from there", () => {
    const thin = times(6, held);
    expect(checkStepAfter([...thin, missed])).toBe(1);
    expect(checkStepAfter([...thin, missed, ...times(2, held)])).toBe(1);
    expect(checkStepAfter([...thin, missed, ...times(3, held)])).toBe(2);
  });

  it("forgets what fell before the return: the three sessions after it are enough", () => {
    expect(checkStepAfter([...times(3, held), missed, ...times(6, held)])).toBe(4);
  });

  it("lets a bad first week delay nothing once three sessions with ten checks hold", () => {
    expect(checkStepAfter([...times(5, missed), ...times(2, held)])).toBe(1);
    expect(checkStepAfter([...times(5, missed), ...times(3, held)])).toBe(2);
  });

  it("says which checks brought it there, and keeps saying so while it stays", () => {
    const climbed = [...times(2, held), session(4, 5)];
    for (const more of [[], [session(1, 1)], times(2, session(1, 1))]) {
      expect(checkStanding([...climbed, ...more])).toEqual({
        every: 2,
        because: {
          every: 2,
          change: "thin",
          reason: "agreement-held",
          sessions: 3,
          compared: 13,
          matching: 12,
        },
      });
    }
    expect(checkStanding([...climbed, missed, held]).because).toMatchObject({
      every: 1,
      reason: "agreement-fell",
      matching: 1,
      compared: 4,
    });
  });

  it("tells how far it is while it has never left every cue", () => {
    expect(checkStanding([]).because).toMatchObject({ reason: "few-checks", compared: 0 });
    expect(checkStanding([held, held]).because).toMatchObject({ compared: 8, sessions: 2 });
  });

  it("passes over sessions without a comparison", () => {
    const unchecked = session(0, 0);
    expect(checkStepAfter([held, unchecked, held, unchecked, held])).toBe(2);
    expect(checkStepAfter(times(20, unchecked))).toBe(1);
  });

  it("refuses a session that matches more than it compares", () => {
    expect(() => checkStepAfter([session(5, 4)])).toThrow(RangeError);
  });
});
