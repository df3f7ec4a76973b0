import { describe, expect, it } from "vitest";
import { adviceAwaits, awaitsProbe } from "../../../../../src/screens/today/awaits.ts";
import { bySitting } from "../../../../../src/screens/today/sitting.ts";

describe("advice on Today", () => {
  it("waits when it asks for a change and nothing was decided since the newest session", () => {
    for (const advice of [
      "ask-what-changed",
      "look-at-work",
      "check-match",
      "step-back",
      "thin-cues",
      "end-cues-and-probe",
    ] as const) {
      expect(adviceAwaits(advice, 100, null)).toBe(true);
      expect(adviceAwaits(advice, 100, 99)).toBe(true);
      expect(adviceAwaits(advice, 100, 100)).toBe(false);
      expect(adviceAwaits(advice, null, null)).toBe(false);
    }
    const day = 24 * 60 * 60 * 1000;
    expect(adviceAwaits("two-weeks-over", 100, null)).toBe(true);
    expect(adviceAwaits("two-weeks-over", 20 * day, 10 * day)).toBe(false);
    expect(adviceAwaits("two-weeks-over", 20 * day, 5 * day)).toBe(true);
    expect(adviceAwaits("keep-going", 100, null)).toBe(false);
    expect(adviceAwaits("not-enough-data", 100, null)).toBe(false);
  });
});

describe("a drawn probe", () => {
  const probes = { until: "2026-06-30", seed: "plum", days: ["2026-06-03", "2026-06-19"] };
  const phase = { studentId: null, startsOn: "2026-06-01", probes };

  it("waits on its day until one is held", () => {
    expect(awaitsProbe([phase], [], "2026-06-03")).toBe(true);
    expect(awaitsProbe([phase], [], "2026-06-04")).toBe(false);
    const watched = [{ kind: "probe", day: "2026-06-03" }] as const;
    expect(awaitsProbe([phase], watched, "2026-06-03")).toBe(false);
    expect(awaitsProbe([phase], watched, "2026-06-19")).toBe(true);
  });

  it("is let go once another phase has begun, and waits for a student of another phase", () => {
    const back = { studentId: null, startsOn: "2026-06-10", probes: null };
    expect(awaitsProbe([phase, back], [], "2026-06-03")).toBe(true);
    expect(awaitsProbe([phase, back], [], "2026-06-19")).toBe(false);
    const own = { ...phase, studentId: "s1" };
    expect(awaitsProbe([own, back], [], "2026-06-19")).toBe(true);
  });
});

describe("groups of the day", () => {
  it("are parted by the weekdays on which they sit; who has no timetable sits", () => {
    const [birch, elm, fresh] = [{ id: "birch" }, { id: "elm" }, { id: "new" }];
    const groups = [birch, elm, fresh];
    const timetable = [
      { groupId: "birch", weekdays: [1, 3] },
      { groupId: "elm", weekdays: [2] },
    ];
    // A Wednesday and a Tuesday, by any calendar.
    expect(bySitting(groups, timetable, "2026-11-25")).toEqual({
      sitting: [birch, fresh],
      others: [elm],
    });
    expect(bySitting(groups, timetable, "2026-11-24")).toEqual({
      sitting: [elm, fresh],
      others: [birch],
    });
  });
});
