import { createIntl } from "react-intl";
import { describe, expect, it } from "vitest";
import { languages } from "../../../../../shared/api/app.ts";
import { firstPlan, type PlanSettings } from "../../../../../shared/plan/plan.ts";
import {
  checkPlan,
  type PlanProblemCode,
  planProblemCodes,
} from "../../../../../shared/schedule/check-plan.ts";
import {
  wordChanges,
  wordPlanProblem,
} from "../../../../../src/screens/plan/fields/word-problem.ts";
import { catalogues, type Language } from "../../../../../src/text/catalogue.ts";
import type { Say } from "../../../../../src/text/text.tsx";

// One plan for each way a plan can be impossible; what is expected of it comes from `checkPlan` itself.
const impossible: Record<PlanProblemCode, Partial<PlanSettings>> = {
  outsideBounds: { meanSeconds: 90_000 },
  lengthUnderOneMinute: { lengthSeconds: 30, meanSeconds: 25 },
  lengthOverThreeHours: { lengthSeconds: 14_400 },
  meanTooShort: { meanSeconds: 3, shortestGapSeconds: 1 },
  meanNotAboveShortestGap: { shortestGapSeconds: 150 },
  lengthShorterThanMean: { meanSeconds: 1500 },
  noRoomForCues: { leadInSeconds: 600, endMarginSeconds: 540 },
  longestGapNotAboveMean: { longestGapSeconds: 100 },
  longestGapTooNearMean: { longestGapSeconds: 180 },
  uniformPastLongestGap: { law: "uniform", longestGapSeconds: 200 },
  tooManyCues: { meanSeconds: 5, shortestGapSeconds: 1, lengthSeconds: 10_800 },
  fewestCuesImpossible: { fewestCues: 60 },
  fewestCuesUnlikely: { fewestCues: 14 },
  volumeOutsideBounds: { volume: 1.5 },
  soundAtVolumeZero: { volume: 0 },
};

/** The catalogue as a screen words with it; a value that a message misses is an error here. */
function sayIn(language: Language): Say {
  const intl = createIntl({
    locale: language,
    messages: catalogues[language],
    onError: (error) => {
      throw error;
    },
  });
  return (id, values) => intl.formatMessage({ id }, values);
}

describe.each(languages)("In %s, an impossible plan", (language) => {
  const say = sayIn(language);

  it.each(planProblemCodes)("is explained in whole words: %s", (code) => {
    const settings = { ...firstPlan, ...impossible[code] };
    const problem = checkPlan(settings).find((found) => found.code === code);
    if (problem === undefined) throw new Error(`No plan here has the problem ${code}.`);
    const words = wordPlanProblem(say, problem);
    expect(words).toMatch(/^[«“\p{L}\d].*[.]$/u);
    // No name of a setting, no raw number of seconds beyond an hour, nothing unworded.
    expect(words).not.toMatch(/Seconds|undefined|NaN|null|\{|\}|fewestCues/);
    expect(words).not.toMatch(/\d{4,}/);

    const changes = wordChanges(say, settings, problem.nearest);
    expect(changes.length).toBeGreaterThan(0);
    for (const change of changes) expect(change).not.toMatch(/undefined|NaN|null|\{|\}/);
  });

  it("tells every setting that is out of bounds by its name in words", () => {
    const settings = {
      ...firstPlan,
      meanSeconds: -1,
      shortestGapSeconds: -1,
      longestGapSeconds: 90_000,
      lengthSeconds: 90_000,
      leadInSeconds: -1,
      endMarginSeconds: -1,
      fewestCues: 501,
    };
    const words = checkPlan(settings).map((problem) => wordPlanProblem(say, problem));
    expect(new Set(words).size).toBe(7);
    for (const sentence of words) expect(sentence).not.toMatch(/Seconds|fewestCues/);
  });
});

describe("The nearest plan", () => {
  const say = sayIn("en");

  it("is told by what it changes and nothing else", () => {
    const settings = { ...firstPlan, shortestGapSeconds: 150 };
    const [problem] = checkPlan(settings);
    expect(problem && wordChanges(say, settings, problem.nearest)).toEqual([
      "never closer than 1 minute",
    ]);
  });

  it("may be one without a longest gap, or with the cue to be seen only", () => {
    const without = { ...firstPlan, longestGapSeconds: 90_000 };
    expect(wordChanges(say, without, { ...without, longestGapSeconds: null })).toEqual([
      "no longest gap",
    ]);
    const mute = { ...firstPlan, volume: 0 };
    const [problem] = checkPlan(mute);
    expect(problem && wordChanges(say, mute, problem.nearest)).toEqual([
      "the cue reaches everybody, without sound",
    ]);
  });
});
