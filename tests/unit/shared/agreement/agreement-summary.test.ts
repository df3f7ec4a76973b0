import { describe, expect, it } from "vitest";
import { agreementBy, summariseTable } from "../../../../shared/agreement/agreement-summary.ts";
import { type MarkPair, twoByTwoOf } from "../../../../shared/agreement/two-by-two.ts";

// The .80 and .60 minima: What Works Clearinghouse 1.0 (2010), from memory. The count of ten and the
// one-sided limit: common practice, no source.

const summary = (a: number, b: number, c: number, d: number) =>
  summariseTable(twoByTwoOf(a, b, c, d));

describe("the plain reading", () => {
  it("says nothing on fewer than ten compared cues", () => {
    expect(summary(5, 0, 0, 4)).toMatchObject({ reading: "too-few-checks", next: "check-more" });
    expect(summary(5, 0, 0, 5).reading).toBe("strong");
  });

  it("warns below 80 %, and not at 80 % exactly", () => {
    expect(summary(4, 2, 1, 3)).toMatchObject({ reading: "below-80", next: "practise-target" });
    expect(summary(4, 1, 1, 4)).toMatchObject({ reading: "fair", next: "let-checks-thin" });
    expect(summary(6, 2, 1, 6).reading).toBe("fair"); // 12 of 15 is 80 %
  });

  it("keeps the percentage beside the warning", () => {
    expect(summary(4, 2, 1, 3).percent).toMatchObject({ kind: "computed", value: 0.7 });
  });

  it("names flattering records and asks to reward matching", () => {
    const flattering = summary(10, 8, 0, 6);
    expect(flattering.reading).toBe("below-80");
    expect(flattering.mcNemar.direction).toBe("first-says-on-more");
    expect(flattering.next).toBe("reward-matching");
  });

  it("holds back 'strong' when kappa stays low though both kinds of cue occurred", () => {
    const result = summary(27, 2, 1, 1); // 90 %, prevalence 26/31 = .84: one-sided
    expect(result.notes).toContain("nearly-one-sided");
    expect(result.reading).toBe("strong");
    const mixed = summary(50, 3, 3, 4); // 90 %, prevalence .77, kappa .51
    expect(mixed.notes).toContain("kappa-below-60");
    expect(mixed.reading).toBe("fair");
  });

  it("says when more checks could still show less than 80 %", () => {
    expect(summary(5, 0, 0, 5).notes).toContain("could-be-below-80"); // Wilson .72 to 1
    expect(summary(30, 0, 0, 30).notes).toEqual([]);
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
      mcNemar: { disagreements: 0, probability: 1, direction: "too-few-disagreements" },
      reading: "too-few-checks",
    });
  });

  it("when both records say on throughout", () => {
    expect(summary(12, 0, 0, 0)).toMatchObject({
      percent: { value: 1 },
      occurrence: { value: 1 },
      nonOccurrence: { kind: "not-computable", reason: "nobody-said-off" },
      kappa: { kind: "not-computable", reason: "only-one-category-used" },
      reading: "strong",
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
