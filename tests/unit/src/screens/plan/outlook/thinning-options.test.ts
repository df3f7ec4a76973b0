import { describe, expect, it } from "vitest";
import { firstPlan } from "../../../../../../shared/plan/plan.ts";
import {
  evenFadingSteps,
  fadedPlan,
  fadingList,
} from "../../../../../../shared/schedule/fading.ts";
import { keyCues } from "../../../../../../src/print/key-cues.ts";
import {
  endsFor,
  readThinningOptions,
} from "../../../../../../src/screens/plan/outlook/use-thinning-options.ts";

const read = (address: string, meanSeconds = 120) =>
  readThinningOptions(new URLSearchParams(address), meanSeconds, "drawn");

describe("A thinning list's address", () => {
  it("needs to say nothing", () => {
    expect(read("")).toEqual({ series: "drawn", first: 120, end: 600, steps: "4", each: "3" });
  });

  it("keeps where the list begins when the plan has moved on", () => {
    const address = "series=spring&from=120&to=900&steps=5&each=10";
    expect(read(address, 300)).toEqual(read(address, 120));
    expect(read(address)).toEqual({
      series: "spring",
      first: 120,
      end: 900,
      steps: "5",
      each: "10",
    });
  });

  it.each(["from=x&to=y&steps=9&each=2&series=%20", "from=-5&to=0", "from=1e9"])(
    "that makes no sense, %s, counts as the usual",
    (address) => {
      expect(read(address)).toEqual(read(""));
    },
  );

  it("never ends denser than half as long again", () => {
    for (const mean of [5, 60, 120, 600, 1000, 5000]) {
      for (const end of endsFor(mean)) expect(end).toBeGreaterThanOrEqual(1.5 * mean);
      expect(endsFor(mean)).toContain(read("", mean).end);
    }
  });
});

describe("A session of a thinning list", () => {
  it("has the cues of its key, today and when the plan has come to its step", () => {
    const { series, first, end, steps, each } = read("series=spring");
    const means = evenFadingSteps({
      firstMeanSeconds: first,
      lastMeanSeconds: end,
      steps: Number(steps),
      sessionsPerStep: Number(each),
    });
    const today = fadingList(firstPlan, series, means);
    const movedOn = fadedPlan(firstPlan, means[2]?.meanSeconds ?? 0);
    const later = fadingList(movedOn, series, means);
    expect(today).toHaveLength(12);
    for (const [index, { seed, plan }] of today.entries()) {
      const key = keyCues(firstPlan, { seed, studentId: null, meanSeconds: plan.meanSeconds });
      expect(key.schedule?.cues.length).toBeGreaterThan(0);
      const laterKey = keyCues(movedOn, {
        seed: later[index]?.seed ?? "",
        studentId: null,
        meanSeconds: later[index]?.plan.meanSeconds ?? null,
      });
      expect(laterKey.schedule).toEqual(key.schedule);
    }
  });
});
