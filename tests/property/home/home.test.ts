import fc from "fast-check";
import { expect, it } from "vitest";
import { contractCost, contractOutcome, proposedRate } from "../../../shared/home/contract.ts";
import type { ContractGoal } from "../../../shared/home/contract-terms.ts";
import { homePoints, type Rating, ratings } from "../../../shared/home/home-card.ts";
import { inCounts } from "../../../shared/home/in-counts.ts";

const share = fc.integer({ min: 5, max: 100 }).map((percent) => percent / 100);
const goal: fc.Arbitrary<ContractGoal> = fc.oneof(
  fc.record({
    kind: fc.constant("rate" as const),
    rate: share,
    measure: fc.constantFrom("self" as const, "adult" as const),
  }),
  fc.record({
    kind: fc.constant("work" as const),
    completed: share,
    correct: fc.option(share),
  }),
);
const count = fc.integer({ min: 0, max: 40 });
const givenTaken = fc.record({ given: count, taken: count });

it("what a contract takes keeps two given for one taken, half of the day, and the balance", () => {
  fc.assert(
    fc.property(
      goal,
      fc.record({
        outcome: fc.constantFrom("met" as const, "not-yet" as const, "no-data" as const),
        cost: fc.integer({ min: 0, max: 5 }),
        stopped: fc.boolean(),
        balance: count,
        day: givenTaken,
        lately: givenTaken,
      }),
      (any, inputs) => {
        const taken = contractCost(any, inputs);
        expect(taken).toBeGreaterThanOrEqual(0);
        expect(taken).toBeLessThanOrEqual(inputs.cost);
        if (taken === 0) return;
        expect(inputs.outcome).toBe("not-yet");
        expect(any.kind === "rate" && any.measure === "self").toBe(false);
        expect(taken).toBeLessThanOrEqual(inputs.balance);
        expect(2 * taken).toBeLessThanOrEqual(inputs.day.given);
        for (const span of [inputs.day, inputs.lately]) {
          expect(2 * (span.taken + taken)).toBeLessThanOrEqual(span.given);
        }
      },
    ),
  );
});

it("a day with more on task never turns from met to not yet", () => {
  const day = fc.record({
    on: count,
    off: count,
    cues: fc.integer({ min: 0, max: 80 }),
    work: fc.constant(null),
  });
  fc.assert(
    fc.property(goal, day, (any, facts) => {
      if (contractOutcome(any, facts) !== "met") return;
      expect(contractOutcome(any, { ...facts, on: facts.on + 1 })).toBe("met");
    }),
  );
});

it("a proposal is never above the goal to hold, nor below the lowest day", () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 1 }),
      share,
      (days, hold) => {
        const rates = days.map((percent) => percent / 100);
        const next = proposedRate(rates, hold) ?? Number.NaN;
        expect(next).toBeLessThanOrEqual(hold);
        expect(next).toBeGreaterThanOrEqual(Math.min(hold, ...rates));
      },
    ),
  );
});

it("home points are never below zero, and keep at least half of what the ratings gave", () => {
  const cells = fc.array(fc.option(fc.constantFrom<Rating>(...ratings)), { maxLength: 32 });
  const weights = fc.tuple(
    fc.integer({ min: -20, max: 100 }),
    fc.integer({ min: -20, max: 100 }),
    fc.integer({ min: 0, max: 100 }),
    fc.integer({ min: 0, max: 100 }),
    fc.integer({ min: 0, max: 100 }),
  );
  fc.assert(
    fc.property(cells, weights, (any, each) => {
      const gives = any.reduce<number>(
        (sum, rating) => sum + (rating === null ? 0 : Math.max(0, each[rating])),
        0,
      );
      const points = homePoints(any, each);
      expect(points).toBeGreaterThanOrEqual(Math.ceil(gives / 2));
      expect(points).toBeLessThanOrEqual(gives);
    }),
  );
});

it("a share as counts is the share that was agreed", () => {
  fc.assert(
    fc.property(share, (any) => {
      const { times, every } = inCounts(any);
      expect(Number.isInteger(times)).toBe(true);
      expect(Math.round((100 * times) / every)).toBe(Math.round(100 * any));
    }),
  );
});
