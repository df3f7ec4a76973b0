import { describe, expect, it } from "vitest";
import { simulateRecord } from "../../../../../shared/analysis/calibration/simulate-record.ts";
import {
  alternationOrders,
  alternationTest,
} from "../../../../../shared/analysis/designs/alternation-test.ts";
import {
  alternationStandard,
  withdrawalStandard,
} from "../../../../../shared/analysis/designs/design-standard.ts";
import { conditionAt, nextTurn } from "../../../../../shared/phase/alternation.ts";
import { readAlternation } from "../../../../../shared/reading/drawn/alternation-reading.ts";
import { drawAlternation } from "../../../../../shared/reading/drawn/drawn-alternation.ts";
import type { SessionCount } from "../../../../../shared/record/session-count.ts";
import { randomStream } from "../../../../../shared/schedule/stream.ts";

/** Of all words of two letters those with as many of each and no three alike in a row. */
function bySearch(sessions: number): string[] {
  const words = Array.from({ length: 2 ** sessions }, (_, at) =>
    at.toString(2).padStart(sessions, "0").replaceAll("0", "A").replaceAll("1", "B"),
  );
  return words.filter(
    (word) => word.replaceAll("B", "").length === sessions / 2 && !/AAA|BBB/.test(word),
  );
}

const choose = (n: number, k: number): number => (k === 0 ? 1 : (choose(n - 1, k - 1) * n) / k);

/** Runs of one and two: the k sessions of a condition fall into r runs in C(r, k - r) ways. */
function byFormula(sessions: number): number {
  const k = sessions / 2;
  const runs = (r: number) => (r * 2 < k || r > k ? 0 : choose(r, k - r));
  let count = 0;
  for (let r = 1; r <= k; r += 1) count += 2 * runs(r) ** 2 + 2 * runs(r) * runs(r + 1);
  return count;
}

const pointsOf = (values: readonly number[]) =>
  values.map((value, at) => ({ place: at + 1, value }));

describe("the orders of two conditions by turns", () => {
  it.each([6, 8, 10, 12])("of %i sessions are those that a search of all words finds", (n) => {
    expect(alternationOrders(n)).toEqual(bySearch(n));
  });

  it.each([10, 16, 20, 24])("of %i sessions are as many as runs of one and two allow", (n) => {
    expect(alternationOrders(n)).toHaveLength(byFormula(n));
  });

  it("are drawn alike often, and the same seed gives the same", () => {
    expect(drawAlternation("kiwi", 10)).toBe(drawAlternation("kiwi", 10));
    const seen = new Map<string, number>();
    const draws = 84 * 50;
    for (let draw = 0; draw < draws; draw += 1) {
      const order = drawAlternation(`s${draw}`, 10);
      seen.set(order, (seen.get(order) ?? 0) + 1);
    }
    expect(seen.size).toBe(84);
    const chiSquare = [...seen.values()].reduce((sum, n) => sum + (n - 50) ** 2 / 50, 0);
    // 99.9 % point of chi-square with 83 degrees of freedom: 127.7 (Wilson and Hilferty's formula).
    expect(chiSquare).toBeLessThan(127.7);
  });
});

describe("the test of two conditions by turns", () => {
  it("gives two orders of 84 where each session of A is above each of B", () => {
    const order = "ABBAABABBA";
    const found = alternationTest(order, pointsOf([...order].map((c) => (c === "A" ? 0.8 : 0.5))));
    expect(found).toMatchObject({ kind: "computed", ways: 84, points: { A: 5, B: 5 } });
    if (found.kind !== "computed") throw new Error();
    expect(found.difference).toBeCloseTo(0.3, 12);
    expect(found.probability).toBeCloseTo(2 / 84, 12);
    expect(found.oneSidedProbability).toBeCloseTo(1 / 84, 12);
  });

  it("counts by hand: of six sessions 14 orders, of which four reach the difference seen", () => {
    // Values 1 to 6 under ABABAB: A has 1 + 3 + 5 = 9, B 12, difference -1. The sum of A is at most 9 or at
    // least 12 in all orders but those with 10 or 11.
    const values = [1, 2, 3, 4, 5, 6];
    const sums = bySearch(6).map((order) =>
      values.reduce((sum, value, at) => sum + (order[at] === "A" ? value : 0), 0),
    );
    const reached = sums.filter((sum) => sum <= 9 || sum >= 12).length;
    const found = alternationTest("ABABAB", pointsOf(values));
    expect(found).toMatchObject({ probability: reached / 14, difference: -1 });
  });

  it.each([
    [100, 0.025],
    [10, 0.02],
  ])(
    "is wrong for at most one of twenty steady students, whose neighbours are alike: %i cues",
    (cues, least) => {
      const draw = randomStream("alternation", cues === 100 ? "steady" : `steady ${cues}`);
      const trials = 1_500;
      let shown = 0;
      for (let trial = 0; trial < trials; trial += 1) {
        const record = simulateRecord(
          { sessions: 12, cues, rate: () => 0.6, r: 0.3, perWeek: 7 },
          draw,
        );
        const order = drawAlternation(`t${trial}`, 12);
        const found = alternationTest(order, pointsOf(record.map(({ on }) => on / cues)));
        if (found.kind === "computed" && found.probability <= 0.05) shown += 1;
      }
      // 5 % and two standard errors; rates that are alike, and the steps of one order in 208, take off some.
      expect(shown / trials).toBeLessThan(0.062);
      expect(shown / trials).toBeGreaterThan(least);
    },
  );

  it("passes over places without marks, and says why there is no test", () => {
    const order = "ABBAABABBA";
    const some = pointsOf([0.8, 0.4, 0.5, 0.9, 0.8, 0.3, 0.7, 0.4, 0.5, 0.8]).filter(
      ({ place }) => place !== 4,
    );
    expect(alternationTest(order, some)).toMatchObject({ points: { A: 4, B: 5 } });
    expect(alternationTest("AAABBB", [])).toMatchObject({ reason: "order-not-permitted" });
    expect(alternationTest(order, pointsOf([0.5, 0.6]))).toMatchObject({
      reason: "order-leaves-condition-empty",
    });
  });
});

describe("an alternation on its way", () => {
  const order = "ABBAABABBA";
  const idOf = (place: number) => `s${place}`;
  const held = (n: number) =>
    Array.from({ length: n }, (_, at) => ({ sessionId: idOf(at + 1), place: at + 1 }));
  const sessions: SessionCount[] = [...order].map((condition, at) => ({
    sessionId: idOf(at + 1),
    startedAt: at * 86_400_000,
    day: `2026-09-${String(at + 1).padStart(2, "0")}`,
    minuteOfDay: 540,
    on: condition === "A" ? 8 : 4,
    off: condition === "A" ? 2 : 6,
    missing: 0,
    source: "self",
  }));

  it("gives each session the next turn, and none when all are held", () => {
    expect(nextTurn({ order, sessions: [] })).toEqual({ place: 1, condition: "A" });
    expect(nextTurn({ order, sessions: held(2) })).toEqual({ place: 3, condition: "B" });
    expect(nextTurn({ order, sessions: held(10) })).toBeNull();
    expect(conditionAt(order, 11)).toBeNull();
  });

  it("is not tested before its last session has ended", () => {
    const whole = { order, times: 1, sessions: held(10) };
    expect(readAlternation({ ...whole, sessions: held(9) }, sessions, null)).toMatchObject({
      held: 9,
      sessions: 10,
      test: { reason: "unfinished" },
    });
    expect(readAlternation(whole, sessions, idOf(10)).test).toMatchObject({ reason: "unfinished" });
    const read = readAlternation(whole, sessions, null);
    expect(read).toMatchObject({ standard: "meets", redrawn: false, test: { ways: 84 } });
    expect(readAlternation({ ...whole, times: 2 }, sessions, null).redrawn).toBe(true);
  });
});

it("standards by design type ask for phases, and for sessions under each condition", () => {
  expect(withdrawalStandard([5, 5, 5])).toBe("does-not-meet");
  expect(withdrawalStandard([5, 5, 5, 5])).toBe("meets");
  expect(withdrawalStandard([5, 3, 5, 5])).toBe("with-reservations");
  expect(alternationStandard({ A: 5, B: 5 })).toBe("meets");
  expect(alternationStandard({ A: 4, B: 6 })).toBe("with-reservations");
  expect(alternationStandard({ A: 3, B: 6 })).toBe("does-not-meet");
});
