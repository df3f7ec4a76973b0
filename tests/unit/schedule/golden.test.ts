import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import seedrandom from "seedrandom";
import { describe, expect, it } from "vitest";
import { firstPlan } from "../../../shared/plan/plan.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";

// Frozen: same seed and plan, same schedule, on every machine and in every version. A change here means
// that every seed ever written down has lost its meaning.
const golden = [
  {
    name: "exponential",
    change: {},
    cues: [77.6, 143.766, 234.807, 296.304, 464.655, 663.758, 887.135, 934.814, 966.345],
  },
  {
    name: "uniform",
    change: { law: "uniform" },
    cues: [107.572, 201.524, 323.235, 411.164, 585.796, 772.438, 966.27, 1034.626, 1076.409],
  },
  {
    name: "balanced",
    change: { law: "balanced" },
    cues: [98.154, 141.562, 285.118, 309.406, 342.797, 711.287, 888.824, 1118.685, 1173.227],
  },
  {
    name: "fixed",
    change: { law: "fixed" },
    cues: [120, 240, 360, 480, 600, 720, 840, 960, 1080, 1200],
  },
  {
    name: "cut exponential",
    change: { longestGapSeconds: 300 },
    cues: [90.646, 167.964, 273.777, 345.547, 526.625, 731.413, 952.348, 1007.35, 1042.149],
  },
  {
    name: "cut balanced",
    change: { law: "balanced", longestGapSeconds: 300 },
    cues: [113.564, 163.273, 322.455, 347.984, 385.133, 656.141, 844.422, 1068.582, 1131.961],
  },
  {
    name: "lead-in and end margin",
    change: { leadInSeconds: 60, endMarginSeconds: 60 },
    cues: [137.6, 203.766, 294.807, 356.304, 524.655, 723.758, 947.135, 994.814, 1026.345],
  },
  {
    name: "a long end margin",
    change: { endMarginSeconds: 300 },
    cues: [77.6, 143.766, 234.807, 296.304, 464.655, 663.758, 887.135],
  },
] as const;

describe("a schedule", () => {
  it.each(golden)("from seed abc never changes: $name", ({ change, cues }) => {
    expect(sessionSchedule({ ...firstPlan, ...change }, "abc").cues).toEqual(cues);
  });

  it("of one student from seed abc never changes", () => {
    const { cues, streamName } = sessionSchedule(firstPlan, "abc", { studentId: "student-1" });
    expect(streamName).toBe("cues/student-1");
    expect(cues).toEqual([
      150.363, 365.746, 425.263, 706.261, 811.644, 834.253, 902.165, 1036.016, 1080.658, 1152.401,
    ]);
  });

  it("is what the arithmetic says: gaps of 20 s - 100 s ln(1 - u) from stream abc/cues", () => {
    const stream = seedrandom("abc/cues");
    let time = 0;
    for (const cue of sessionSchedule(firstPlan, "abc").cues) {
      time += 20 - 100 * Math.log(1 - stream());
      expect(cue).toBeCloseTo(time, 3);
    }
  });

  it("is the same in two separate processes and here", () => {
    const cli = fileURLToPath(new URL("../../../electron/cli.ts", import.meta.url));
    const inProcess = () => {
      const options = ["cues", "--seed", "two processes", "--law", "balanced", "--json"];
      const printed: { cues: number[] } = JSON.parse(
        execFileSync(process.execPath, [cli, ...options], { encoding: "utf8" }),
      );
      return printed.cues;
    };
    const here = sessionSchedule({ ...firstPlan, law: "balanced" }, "two processes").cues;
    expect(inProcess()).toEqual(here);
    expect(inProcess()).toEqual(here);
  });
});

describe("a schedule that cannot be", () => {
  it("is refused instead of drawn for ever", () => {
    const tooMany = { ...firstPlan, fewestCues: 60 };
    expect(() => sessionSchedule(tooMany, "abc")).toThrow(/fewer than 60 cues/);
  });

  it("is refused when the law is impossible", () => {
    expect(() => sessionSchedule({ ...firstPlan, meanSeconds: 20 }, "abc")).toThrow(RangeError);
  });
});

describe("the fewest-cues floor", () => {
  it("puts a short schedule aside whole and keeps the next draw untouched", () => {
    const withFloor = sessionSchedule({ ...firstPlan, fewestCues: 10 }, "abc");
    expect(withFloor.redraws).toBeGreaterThan(0);
    expect(withFloor.cues.length).toBeGreaterThanOrEqual(10);
    const withoutFloor = sessionSchedule({ ...firstPlan, fewestCues: 0 }, "abc");
    expect(withFloor.cues[0]).not.toBe(withoutFloor.cues[0]);
  });

  it("changes nothing where the first draw has enough cues", () => {
    const none = sessionSchedule({ ...firstPlan, fewestCues: 0 }, "abc");
    expect(sessionSchedule({ ...firstPlan, fewestCues: none.cues.length }, "abc")).toEqual(none);
  });
});
