import { describe, expect, it } from "vitest";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { fadedPlan, fadingSeed } from "../../../../shared/schedule/fading.ts";
import { sessionSchedule } from "../../../../shared/schedule/session-schedule.ts";
import { keyCues, readMean } from "../../../../src/print/key-cues.ts";

describe("The cues on a key", () => {
  it("of a step of thinning are those of the plan once it stands there", () => {
    const seed = fadingSeed("spring", 5);
    const key = keyCues(firstPlan, { seed, studentId: null, meanSeconds: 300 });
    expect(key.settings).toEqual(fadedPlan(firstPlan, 300));
    expect(key.schedule).toEqual(sessionSchedule(fadedPlan(firstPlan, 300), seed));
    const later = keyCues(key.settings, { seed, studentId: null, meanSeconds: null });
    expect(later.schedule).toEqual(key.schedule);
  });

  it("are none where the plan or the step cannot be run", () => {
    const options = { seed: "a", studentId: null, meanSeconds: 5000 };
    expect(keyCues(firstPlan, options).schedule).toBeNull();
    expect(
      keyCues({ ...firstPlan, volume: 0 }, { ...options, meanSeconds: null }).schedule,
    ).toBeNull();
  });

  it.each([
    ["300", 300],
    ["90.5", 90.5],
    ["", null],
    ["0", null],
    ["-5", null],
    ["1e3", null],
    ["abc", null],
  ])("read %j in the address as a mean of %j", (text, seconds) => {
    expect(readMean(text)).toBe(seconds);
  });
});
