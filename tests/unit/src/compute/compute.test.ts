import { describe, expect, it } from "vitest";
import { noRules } from "../../../../shared/plan/earning.ts";
import { firstPlan, type PlanSettings } from "../../../../shared/plan/plan.ts";
import { type PriceInputs, pricesFor } from "../../../../shared/points/planner.ts";
import {
  changesTold,
  planningRule,
  sessionPrecision,
  sessionsToTellChange,
} from "../../../../shared/schedule/precision.ts";
import { compute } from "../../../../src/compute/compute.ts";
import { sessionsToDraw } from "../../../../src/screens/plan/outlook/sessions-to-draw.ts";
import { changesWanted, spellNames, spells } from "../../../../src/screens/plan/outlook/spells.ts";

const student = {
  onTask: 0.8,
  answers: 0.95,
  designEffect: 1.6,
  checked: 0,
  matching: 0,
  items: 0,
};
const priced: PriceInputs = {
  plan: firstPlan,
  rules: { ...noRules, on: 1 },
  students: [student, { ...student, onTask: 0.3 }],
  sessions: 3,
  exchanges: 1,
  givenADay: 0,
};

describe("What the page has computed aside", () => {
  it("crosses to the worker and back whole, as plain data", () => {
    for (const computation of [
      { kind: "guess", plan: { ...firstPlan, fewestCues: 8 } },
      { kind: "changes", settings: { plan: firstPlan, bouts: spells.medium }, mostSessions: 12 },
      { kind: "prices", inputs: priced },
      { kind: "sure", plan: { cues: 2, rate: 0.6, perWeek: 2 } },
    ] as const) {
      const there = structuredClone(computation);
      const back = compute(there);
      expect(structuredClone(back)).toEqual(compute(computation));
    }
  });

  it("prices as the planner does", () => {
    const answer = compute({ kind: "prices", inputs: priced });
    if (answer.kind !== "prices") throw new Error("Asked for prices.");
    expect(answer.prices).toEqual(pricesFor(priced));
  });

  it("gives the law's part alone when there is no floor, so that the quick answer is the final one", () => {
    const answer = compute({ kind: "guess", plan: { ...firstPlan, fewestCues: 0 } });
    if (answer.kind !== "guess") throw new Error("Asked for a guess.");
    expect(answer.guess.method).toBe("exact");
    expect(answer.guess.floorGivesAway).toBe(0);
  });
});

describe("The planner's choices", () => {
  it("all have an answer, and longer spells never need fewer sessions", () => {
    for (const change of changesWanted) {
      const needed = spellNames.map((name) =>
        sessionsToTellChange({ plan: firstPlan, bouts: spells[name] }, change),
      );
      expect(needed.every((sessions) => sessions >= planningRule.fewestSessions)).toBe(true);
      expect(needed).toEqual([...needed].sort((one, other) => one - other));
    }
  });

  it("differ in the length of spells only, not in the on-task rate", () => {
    const rates = spellNames.map(
      (name) => sessionPrecision({ plan: firstPlan, bouts: spells[name] }).trueRate,
    );
    for (const rate of rates) expect(rate).toBeCloseTo(0.6, 12);
  });

  // Plain two-proportion planning, the handbook formula (z.975 + z.80)^2 * 2 p q / (n d^2), times the 1.5 by
  // which a mean of neighbours correlated at .2 varies more, is the limit for a student who forgets at once
  // and whose days are all alike; z.975 = 1.9600 and z.80 = 0.8416 by Python's statistics.NormalDist. Student's t adds about one.
  it("come near the handbook formula for independent looks when spells are very short", () => {
    // Fixed intervals: as many cues every time, as the formula has it.
    const plan: PlanSettings = { ...firstPlan, law: "fixed" };
    const bouts = { onSeconds: 0.06, offSeconds: 0.04 };
    const change = 0.1;
    const handbook = ((1.96 + 0.8416) ** 2 * (0.6 * 0.4 + 0.7 * 0.3)) / (10 * change ** 2);
    const planned = sessionsToTellChange({ plan, bouts, daySpread: 0 }, change);
    expect(Math.abs(planned - 1.5 * handbook)).toBeLessThan(2.5);
  });
});

describe("The planner's chart", () => {
  const plans = [
    firstPlan,
    // Two or three cues in a short session: hundreds of sessions are needed.
    { ...firstPlan, meanSeconds: 240, lengthSeconds: 600 },
    { ...firstPlan, meanSeconds: 20, shortestGapSeconds: 5, lengthSeconds: 10_800 },
  ];
  const cases = plans.flatMap((plan) =>
    spellNames.flatMap((name) =>
      changesWanted.map((change) => ({ plan, bouts: spells[name], change })),
    ),
  );

  it("holds its answer, however many sessions that is, with at most 60 points", () => {
    const answers: number[] = [];
    for (const { plan, bouts, change } of cases) {
      const answer = sessionsToTellChange({ plan, bouts }, change);
      const end = sessionsToDraw(answer);
      const told = changesTold({ plan, bouts }, end);
      expect(answer).toBeLessThan(end);
      expect(told.length).toBeLessThanOrEqual(60);
      expect(told[0]?.sessions).toBe(planningRule.fewestSessions);
      expect(told.at(-1)?.sessions).toBe(end);
      // The curve passes the answer: not told just before it, told from it on.
      for (const row of told) {
        if (row.sessions < answer) expect(row.change).toBeGreaterThan(change);
        if (row.sessions >= answer) expect(row.change).toBeLessThanOrEqual(change + 1e-9);
      }
      answers.push(answer);
    }
    expect(Math.max(...answers)).toBeGreaterThan(80);
  });

  it("has its points in order and none twice, however long it is", () => {
    const settings = { plan: firstPlan, bouts: spells.medium };
    for (const end of [4, 12, 60, 61, 62, 75, 100, 1000, 20_000]) {
      const sessions = changesTold(settings, end).map((row) => row.sessions);
      expect(sessions).toEqual([...new Set(sessions)].sort((one, other) => one - other));
      expect(sessions.at(-1)).toBe(end);
    }
  });
});
