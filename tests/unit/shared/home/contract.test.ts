import { describe, expect, it } from "vitest";
import {
  type ContractDay,
  contractCost,
  contractOutcome,
  contractTally,
  proposedRate,
} from "../../../../shared/home/contract.ts";

// Rules of practice without a source; what is held here is the project's own specification.

const day = (on: number, off: number, cues = on + off): ContractDay => ({
  on,
  off,
  cues,
  work: null,
});
const rate = { kind: "rate", rate: 0.8, measure: "self" } as const;

describe("the outcome of a day under a rate", () => {
  it.each([
    ["met exactly", day(8, 2), "met"],
    ["just short", day(7, 3), "not-yet"],
    ["five marks are enough", day(4, 1), "met"],
    ["four marks are not", day(4, 0), "no-data"],
    ["half of the cues answered is enough", day(8, 2, 20), "met"],
    ["fewer are not", day(8, 2, 21), "no-data"],
    ["no session", day(0, 0), "no-data"],
  ])("%s", (_, given, outcome) => {
    expect(contractOutcome(rate, given)).toBe(outcome);
  });

  it("is not lost to the way a computer keeps fractions", () => {
    expect(contractOutcome({ ...rate, rate: 0.7 }, day(7, 3))).toBe("met");
    expect(contractOutcome({ ...rate, rate: 0.29 }, day(29, 71))).toBe("met");
  });
});

describe("the outcome of a day under work", () => {
  const worked = (assigned: number, completed: number, correct: number | null) => ({
    ...day(0, 0),
    work: { assigned, completed, correct },
  });
  const goal = { kind: "work", completed: 0.8, correct: 0.75 } as const;

  it.each([
    ["both reached", worked(10, 8, 6), "met"],
    ["too few completed", worked(10, 7, 7), "not-yet"],
    ["too few correct", worked(10, 8, 5), "not-yet"],
    ["nobody counted what was correct", worked(10, 8, null), "no-data"],
    ["nothing assigned", worked(0, 0, 0), "no-data"],
    ["nothing noted", day(9, 1), "no-data"],
  ])("%s", (_, given, outcome) => {
    expect(contractOutcome(goal, given)).toBe(outcome);
  });

  it("without a count of correct items completed ones decide", () => {
    expect(contractOutcome({ ...goal, correct: null }, worked(10, 8, null))).toBe("met");
  });
});

it("outcomes are counted, no data apart", () => {
  expect(contractTally(["met", "met", "not-yet", "no-data"])).toEqual({
    met: 2,
    notYet: 1,
    noData: 1,
  });
});

describe("the next step", () => {
  it("is the median day and five points, never above the hold goal", () => {
    expect(proposedRate([0.6, 0.7, 0.64], 0.8)).toBe(0.69);
    expect(proposedRate([0.6, 0.7], 0.8)).toBe(0.7);
    expect(proposedRate([0.9], 0.8)).toBe(0.8);
    expect(proposedRate([], 0.8)).toBeNull();
  });
});

describe("what a contract may take", () => {
  const work = { kind: "work", completed: 0.8, correct: null } as const;
  const seen = { kind: "rate", rate: 0.8, measure: "adult" } as const;
  const usual = {
    outcome: "not-yet",
    cost: 3,
    stopped: false,
    balance: 10,
    day: { given: 10, taken: 0 },
    lately: { given: 40, taken: 0 },
  } as const;

  it.each([
    ["never for a self-record", rate, {}, 0],
    ["the agreed cost for what an adult saw", seen, {}, 3],
    ["the agreed cost for work", work, {}, 3],
    ["never without data", work, { outcome: "no-data" }, 0],
    ["never where it was met", work, { outcome: "met" }, 0],
    ["never after a stop", work, { stopped: true }, 0],
    ["at most half of what the day gave", work, { day: { given: 5, taken: 0 } }, 2],
    ["never more than there is", work, { balance: 1 }, 1],
    ["nothing where the day gave one point", work, { day: { given: 1, taken: 0 } }, 0],
    ["two for one over the day, presses counted", work, { day: { given: 6, taken: 2 } }, 1],
    ["two for one over the last ten sessions", work, { lately: { given: 8, taken: 3 } }, 1],
    ["nothing where it is broken already", work, { lately: { given: 4, taken: 3 } }, 0],
  ] as const)("%s", (_, goal, change, taken) => {
    expect(contractCost(goal, { ...usual, ...change })).toBe(taken);
  });
});
