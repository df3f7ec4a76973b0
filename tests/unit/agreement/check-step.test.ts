import { describe, expect, it } from "vitest";
import type { CheckedSession } from "../../../shared/agreement/check-fading.ts";
import { checkStepAfter } from "../../../shared/agreement/check-step.ts";

// The steps and counts are common practice, no source; these tests hold the rule as it is written down:
// three sessions and ten compared cues at 80 % or more for each thinner step.

const session = (matching: number, compared: number): CheckedSession => ({ matching, compared });
const times = (count: number, each: CheckedSession) => Array.from({ length: count }, () => each);
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

  it("carries low agreement at every cue along until the share is back at 80 %", () => {
    // 1 of 4 and then all: 13 of 16 is the first share of at least 80 % (81 %).
    expect(checkStepAfter([missed, ...times(2, held)])).toBe(1);
    expect(checkStepAfter([missed, ...times(3, held)])).toBe(2);
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
