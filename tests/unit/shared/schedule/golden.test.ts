import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import seedrandom from "seedrandom";
import { describe, expect, it } from "vitest";
import {
  type SpotCheckSettings,
  spotCheckDraw,
} from "../../../../shared/agreement/spot-check-draw.ts";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { fadedPlan, fadingSeed } from "../../../../shared/schedule/fading.ts";
import { sessionSchedule } from "../../../../shared/schedule/session-schedule.ts";

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

  it.each([
    {
      name: "one schedule put aside",
      change: { fewestCues: 10 },
      redraws: 1,
      cues: [
        82.377, 302.374, 417.72, 579.99, 613.228, 728.349, 853.262, 970.212, 996.541, 1079.578,
        1125.775, 1193.162,
      ],
    },
    {
      name: "two put aside, uniform",
      change: { fewestCues: 10, law: "uniform" },
      redraws: 2,
      cues: [
        66.093, 161.575, 200.327, 391.99, 426.197, 622.081, 705.2, 832.747, 1032.887, 1067.951,
        1108.935, 1177.251,
      ],
    },
  ] as const)("with a floor from seed abc never changes: $name", ({ change, redraws, cues }) => {
    expect(sessionSchedule({ ...firstPlan, ...change }, "abc")).toEqual({
      cues,
      redraws,
      streamName: "cues",
    });
  });

  it("of a series from seed abc never changes, seed by seed", () => {
    expect(fadingSeed("abc", 1)).toBe("abc/session-1");
    expect(fadingSeed("abc", 12)).toBe("abc/session-12");
    expect(sessionSchedule(firstPlan, fadingSeed("abc", 1)).cues).toEqual([
      39.722, 79.792, 122.019, 231.026, 427.91, 543.832, 613.442, 635.145, 769.439, 858.501,
      1092.38, 1154.778,
    ]);
    expect(sessionSchedule(fadedPlan(firstPlan, 300), fadingSeed("abc", 4)).cues).toEqual([
      1042.839, 1155.692,
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
    const cli = fileURLToPath(new URL("../../../../electron/cli.ts", import.meta.url));
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

describe("the spot checks of seed abc", () => {
  const present = Array.from({ length: 10 }, () => ["ada", "ben", "cai", "dee", "eli"]);
  const settings = { seed: "abc", cueCount: 10, present, studentsPerCheck: 2 };
  const drawn = (change: Pick<SpotCheckSettings, "every" | "earlierChecks" | "closely">) =>
    spotCheckDraw({ ...settings, ...change }).map(
      ({ cueIndex, studentIds }) => `${cueIndex} ${studentIds.join(" ")}`,
    );

  it("never change: at every cue, one student checked three times before", () => {
    const earlierChecks = { ada: 3 };
    expect(drawn({ every: 1, earlierChecks, closely: new Set() })).toEqual([
      "0 dee ben",
      "1 cai eli",
      "2 dee eli",
      "3 cai ben",
      "4 eli dee",
      "5 ben cai",
      "6 dee cai",
      "7 cai ada",
      "8 eli ben",
      "9 dee ben",
    ]);
    expect(drawn({ every: 4, earlierChecks, closely: new Set() })).toEqual([
      "2 dee ben",
      "4 cai eli",
      "8 dee eli",
    ]);
  });

  it("never change: one student checked closely", () => {
    expect(drawn({ every: 4, earlierChecks: {}, closely: new Set(["eli"]) })).toEqual([
      "0 eli",
      "1 eli",
      "2 eli cai",
      "3 eli",
      "4 eli ben",
      "5 eli",
      "6 eli",
      "7 eli",
      "8 eli ada",
      "9 eli",
    ]);
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
