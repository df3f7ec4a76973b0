import { describe, expect, it } from "vitest";
import {
  type CheckStep,
  fadeChecks,
  staysAtEveryCue,
} from "../../../../shared/agreement/check-fading.ts";

// The steps and counts are common practice, no source; these tests hold the rule as it is written down.

// Off is seen at half of the cues unless a test says otherwise, so that always saying on would match at half.
const sessions = (...list: [matching: number, compared: number, seenOn?: number][]) =>
  list.map(([matching, compared, seenOn = compared / 2]) => ({ matching, compared, seenOn }));

const held = sessions([4, 4], [3, 4], [4, 4]);

describe("fading of checks", () => {
  it.each<[CheckStep, CheckStep]>([
    [1, 2],
    [2, 4],
    [4, 10],
  ])("goes from every %i to every %i when agreement held", (present, every) => {
    expect(fadeChecks(present, held)).toEqual({
      every,
      change: "thin",
      reason: "agreement-held",
      sessions: 3,
      compared: 12,
      matching: 11,
    });
  });

  it("stays where a record that says on at every cue could have matched as well", () => {
    // Off task at a fifth of the cues: always on matches at 8 of 10, 16 of 20 and 32 of 40.
    const alwaysOn = (count: number) =>
      sessions(...Array.from({ length: count }, () => [8, 10, 8] as [number, number, number]));
    for (const count of [3, 4, 12, 40])
      expect(fadeChecks(1, alwaysOn(count))).toMatchObject({
        change: "stay",
        reason: "could-be-always-on",
      });
    // All of 12 match: 76 % at least, which is less than 80; all of 24: 86 %.
    const true4 = [4, 4, 3.2] as [number, number, number];
    expect(fadeChecks(1, sessions(true4, true4, true4)).reason).toBe("could-be-always-on");
    expect(fadeChecks(1, sessions(true4, true4, true4, true4, true4, true4))).toMatchObject({
      change: "thin",
      compared: 16,
    });
  });

  it("never ends checks altogether", () => {
    expect(fadeChecks(10, held)).toMatchObject({ every: 10, change: "stay", reason: "thinnest" });
  });

  it("holds at 80 % exactly and falls below it", () => {
    expect(fadeChecks(2, sessions([4, 5], [4, 5], [4, 5])).change).toBe("thin"); // 55 % at least
    expect(fadeChecks(2, sessions([4, 5], [4, 5], [3, 5]))).toMatchObject({
      every: 1,
      change: "return",
      reason: "agreement-fell",
    });
  });

  it("returns without waiting for ten checks once ten could not reach 80 %", () => {
    expect(fadeChecks(4, sessions([0, 2]))).toMatchObject({ change: "stay", reason: "few-checks" });
    expect(fadeChecks(4, sessions([0, 3]))).toMatchObject({ every: 1, change: "return" });
  });

  it("stays at every cue when agreement is low there", () => {
    expect(fadeChecks(1, sessions([1, 6]))).toMatchObject({ every: 1, change: "stay" });
  });

  it("waits for three sessions and ten checks, and ignores sessions without any", () => {
    expect(fadeChecks(1, sessions([10, 10], [8, 8])).reason).toBe("few-sessions");
    expect(fadeChecks(1, sessions([10, 10], [0, 0], [8, 8])).reason).toBe("few-sessions");
    expect(fadeChecks(1, sessions([3, 3], [3, 3], [3, 3])).reason).toBe("few-checks");
    expect(fadeChecks(1, []).reason).toBe("few-checks");
  });

  it("refuses counts that cannot be", () => {
    expect(() => fadeChecks(1, sessions([3, 2]))).toThrow("matching must be from 0 to 2; got 3");
    expect(() => fadeChecks(1, sessions([2, 2, 3]))).toThrow("from 0 to 2; got 3");
  });

  it("judges the newest sessions that hold three sessions and ten checks, not those before", () => {
    expect(fadeChecks(1, [...sessions([0, 9], [1, 8]), ...held])).toMatchObject({
      change: "thin",
      sessions: 3,
      compared: 12,
      matching: 11,
    });
    expect(fadeChecks(1, sessions([10, 10], [2, 4], [2, 4], [2, 4]))).toMatchObject({
      reason: "agreement-fell",
      compared: 12,
      matching: 6,
    });
  });
});

describe("a student who is checked at every cue", () => {
  it("is one whose newest ten checks match at less than 80 %", () => {
    expect(staysAtEveryCue(sessions([7, 10]))).toBe(true);
    expect(staysAtEveryCue(sessions([8, 10]))).toBe(false);
    // Two moments seen off, and both recorded on: as always on would.
    expect(staysAtEveryCue(sessions([8, 10, 8]))).toBe(true);
    expect(staysAtEveryCue(sessions([9, 10, 8]))).toBe(false);
    expect(staysAtEveryCue(sessions([9, 10, 9]))).toBe(false);
    expect(staysAtEveryCue(sessions([0, 10], [10, 10]))).toBe(false);
    expect(staysAtEveryCue(sessions([10, 10], [5, 10]))).toBe(true);
  });

  it("is nobody with fewer than ten", () => {
    expect(staysAtEveryCue(sessions([0, 9]))).toBe(false);
    expect(staysAtEveryCue([])).toBe(false);
  });
});
