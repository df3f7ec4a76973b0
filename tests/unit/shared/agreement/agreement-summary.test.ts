import { describe, expect, it } from "vitest";
import { agreementBy, summariseTable } from "../../../../shared/agreement/agreement-summary.ts";
import { type MarkPair, twoByTwoOf } from "../../../../shared/agreement/two-by-two.ts";

// The .80 and .60 minima are the rule that thresholds.ts names with its source. The count of ten and the
// one-sided limit: common practice, no source.

const summary = (a: number, b: number, c: number, d: number) =>
  summariseTable(twoByTwoOf(a, b, c, d));

describe("the percentage alone", () => {
  it("says nothing on fewer than ten compared cues", () => {
    expect(summary(5, 0, 0, 4)).toMatchObject({ level: "too-few-checks", next: "check-more" });
    expect(summary(5, 0, 0, 5).level).toBe("strong");
  });

  it("warns below 80 %, and not at 80 % exactly", () => {
    expect(summary(4, 2, 1, 3)).toMatchObject({ level: "below-80", next: "practise-target" });
    expect(summary(4, 1, 1, 4).level).toBe("fair");
    expect(summary(6, 2, 1, 6).level).toBe("fair"); // 12 of 15 is 80 %
  });

  it("stays beside the warning", () => {
    expect(summary(4, 2, 1, 3).percent).toMatchObject({ kind: "computed", value: 0.7 });
  });

  it("is not strong when kappa stays low though both kinds of cue occurred", () => {
    const result = summary(27, 2, 1, 1); // 90 %, prevalence 26/31 = .84: one-sided
    expect(result.notes).toContain("nearly-one-sided");
    expect(result.level).toBe("strong");
    const mixed = summary(50, 3, 3, 4); // 90 %, prevalence .77, kappa .51
    expect(mixed.notes).toContain("kappa-below-60");
    expect(mixed.level).toBe("fair");
  });

  it("says when more checks could still show less than 80 %", () => {
    expect(summary(5, 0, 0, 5).notes).toContain("could-be-below-80"); // Wilson .72 to 1
    expect(summary(30, 0, 0, 30).notes).toEqual([]);
  });
});

describe("whether record and observation match", () => {
  it.each([
    // Recorded on at every cue: 90 and 80 % match, and neither says anything.
    [18, 2, 0, 0, "cannot-tell", "all-recorded-on", "check-more"],
    [16, 4, 0, 0, "cannot-tell", "all-recorded-on", "check-more"],
    [37, 3, 0, 0, "cannot-tell", "all-recorded-on", "check-more"],
    [14, 6, 0, 0, "low", "below-80", "reward-matching"],
    [20, 0, 0, 0, "cannot-tell", "all-seen-on", "check-more"],
    [19, 0, 1, 0, "cannot-tell", "all-seen-on", "check-more"],
    [0, 0, 0, 12, "cannot-tell", "all-seen-off", "check-more"],
    [0, 0, 2, 12, "cannot-tell", "all-recorded-off", "check-more"],
    [0, 0, 0, 0, "cannot-tell", "no-checks", "check-more"],
    [5, 0, 0, 4, "cannot-tell", "few-checks", "check-more"],
    [17, 1, 1, 1, "cannot-tell", "no-better-than-chance", "check-more"], // 90 %, P = .19
    // Off is called off twice in two: fair, since half of such moments could still be hidden.
    [8, 0, 0, 2, "fair", "few-seen-off", "check-more"],
    [5, 0, 0, 5, "good", "matches", "let-checks-thin"],
    [24, 1, 1, 14, "good", "matches", "let-checks-thin"],
    [30, 2, 2, 6, "fair", "few-seen-off", "check-more"], // 90 %, at least 77; always on 80
    [30, 5, 0, 25, "fair", "leans-to-on", "let-checks-thin"], // 5 of 30 hidden, all one way
    [6, 2, 1, 6, "fair", "below-90", "let-checks-thin"], // 80 %, at least 55; always on 47
    // 92 % match, and of eleven moments seen off six are recorded on.
    [64, 6, 0, 5, "low", "off-recorded-on", "reward-matching"],
    [10, 8, 0, 6, "low", "below-80", "reward-matching"],
    [4, 2, 1, 3, "low", "below-80", "practise-target"],
  ] as const)(
    "%i on and on, %i on and off, %i off and on, %i off and off: %s, %s",
    (a, b, c, d, match, reason, next) => {
      const found = summary(a, b, c, d);
      expect(found.reading).toEqual({ match, reason, next });
      expect(found.next).toBe(next);
    },
  );

  it("tells how many of the moments seen off were recorded on", () => {
    // 0 of 2: Wilson 0 to 66 %.
    expect(summary(8, 0, 0, 2).offRecordedOn).toMatchObject({
      recordedOn: 0,
      seenOff: 2,
      value: 0,
    });
    const found = summary(8, 0, 0, 2).offRecordedOn;
    expect(found.kind === "computed" && found.interval.upper).toBeCloseTo(0.658, 3);
    expect(summary(9, 0, 1, 0).offRecordedOn).toEqual({
      kind: "not-computable",
      reason: "nobody-seen-off",
    });
  });

  it("withholds the error of a kappa of which one record is all alike", () => {
    expect(summary(18, 2, 0, 0).kappa).toMatchObject({
      value: 0,
      standardError: null,
      standardErrorUnderZero: null,
    });
    expect(summary(12, 2, 1, 5).kappa).toMatchObject({ standardError: expect.any(Number) });
  });
});

describe("undefined figures are reasons, not numbers", () => {
  it("without pairs", () => {
    expect(summary(0, 0, 0, 0)).toMatchObject({
      percent: { kind: "not-computable", reason: "no-pairs" },
      occurrence: { kind: "not-computable", reason: "nobody-said-on" },
      nonOccurrence: { kind: "not-computable", reason: "nobody-said-off" },
      kappa: { kind: "not-computable", reason: "no-pairs" },
      indices: { kind: "not-computable", reason: "no-pairs" },
      ac1: { kind: "not-computable", reason: "no-pairs" },
      mcNemar: { disagreements: 0, probability: 1, direction: "too-few-disagreements" },
      level: "too-few-checks",
    });
  });

  it("when both records say on throughout", () => {
    expect(summary(12, 0, 0, 0)).toMatchObject({
      percent: { value: 1 },
      occurrence: { value: 1 },
      nonOccurrence: { kind: "not-computable", reason: "nobody-said-off" },
      kappa: { kind: "not-computable", reason: "only-one-category-used" },
      ac1: { value: 1 },
      level: "strong",
      notes: ["nearly-one-sided", "could-be-below-80"],
    });
  });
});

describe("the direction of disagreement", () => {
  it.each([
    [5, 0, "too-few-disagreements"], // P = 2/32
    [6, 0, "first-says-on-more"], // P = 2/64
    [0, 6, "second-says-on-more"],
    [6, 4, "no-clear-direction"],
    [8, 1, "first-says-on-more"], // P = 20/512
    [8, 2, "no-clear-direction"], // P = 112/1024
  ])("%i yes-no and %i no-yes: %s", (firstOnly, secondOnly, direction) => {
    expect(summary(9, firstOnly, secondOnly, 9).mcNemar.direction).toBe(direction);
  });

  it("has a one-sided probability of its own", () => {
    expect(summary(9, 5, 0, 9).mcNemar.oneSidedProbability).toBeCloseTo(1 / 32, 12);
    expect(summary(9, 0, 5, 9).mcNemar.oneSidedProbability).toBe(1);
    expect(summary(9, 8, 1, 9).mcNemar.oneSidedProbability).toBeCloseTo(10 / 512, 12);
  });
});

it("summarises by any key, in the order met", () => {
  const pair = (
    student: string,
    week: string,
    first: "on" | "off",
  ): MarkPair & {
    student: string;
    week: string;
  } => ({ student, week, first, second: "on" });
  const pairs = [pair("b", "w1", "on"), pair("a", "w1", "off"), pair("b", "w2", "on")];
  const byStudent = agreementBy(pairs, ({ student }) => student);
  expect([...byStudent.keys()]).toEqual(["b", "a"]);
  expect(byStudent.get("b")?.table).toMatchObject({ bothOn: 2, compared: 2 });
  expect(byStudent.get("a")?.table).toMatchObject({ secondOnly: 1, compared: 1 });
  expect([...agreementBy(pairs, ({ week }) => week).keys()]).toEqual(["w1", "w2"]);
});
