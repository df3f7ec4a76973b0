import { describe, expect, it } from "vitest";
import { tutoringRounds, withoutAbsent } from "../../../../shared/teams/pairs.ts";

const sizes = Array.from({ length: 27 }, (_, at) => at + 4);

/** How often each student has the same role in two rounds running, rounds out left aside. */
function breaks(students: number): number {
  const last = new Map<number, "teaches" | "learns">();
  let count = 0;
  for (const { pairs } of tutoringRounds(students)) {
    for (const { teacher, learner } of pairs) {
      if (last.get(teacher) === "teaches") count++;
      if (last.get(learner) === "learns") count++;
      last.set(teacher, "teaches");
      last.set(learner, "learns");
    }
  }
  return count;
}

// The facts of a one-factorization of the complete graph, and the fewest breaks of a home-and-away
// table: n - 2 for even n, because a student without a break alternates, and of two who alternate alike neither
// would ever teach the other: at most two can have none. 0 for odd n (computed for these sizes).
describe.each(sizes)("pairs of %i students", (students) => {
  const rounds = tutoringRounds(students);

  it("everybody meets everybody once, in as few rounds as can be", () => {
    expect(rounds).toHaveLength(students % 2 === 0 ? students - 1 : students);
    const met = rounds.flatMap(({ pairs }) =>
      pairs.map(({ teacher, learner }) => [teacher, learner].sort((a, b) => a - b).join(" ")),
    );
    expect(new Set(met).size).toBe((students * (students - 1)) / 2);
    expect(met).toHaveLength((students * (students - 1)) / 2);
  });

  it("nobody is in two pairs at once, and with an odd number each sits out exactly once", () => {
    for (const { pairs, out } of rounds) {
      const busy = pairs.flatMap(({ teacher, learner }) => [teacher, learner]);
      expect(new Set([...busy, ...(out === null ? [] : [out])]).size).toBe(students);
    }
    const outs = rounds.map(({ out }) => out).sort((a, b) => Number(a) - Number(b));
    if (students % 2 === 1) expect(outs).toEqual(Array.from({ length: students }, (_, at) => at));
    else expect(outs.every((out) => out === null)).toBe(true);
  });

  it("roles are even: the fewest breaks, and teaching as often as learning", () => {
    expect(breaks(students)).toBe(students % 2 === 0 ? students - 2 : 0);
    const balance = new Array<number>(students).fill(0);
    for (const { teacher, learner } of rounds.flatMap(({ pairs }) => pairs)) {
      balance[teacher] = (balance[teacher] ?? 0) + 1;
      balance[learner] = (balance[learner] ?? 0) - 1;
    }
    const most = Math.max(...balance.map(Math.abs));
    expect(most).toBeLessThanOrEqual(students % 2 === 0 ? 1 : 0);
  });
});

describe("a round with somebody absent", () => {
  const [round] = tutoringRounds(8);
  if (round === undefined) throw new Error("There is no round");

  it("pairs the two who are left over", () => {
    const [first, second] = round.pairs;
    if (first === undefined || second === undefined) throw new Error("There are no two pairs");
    const today = withoutAbsent(round, new Set([first.teacher, second.learner]), new Map());
    expect(today.pairs).toHaveLength(3);
    expect(today.out).toBeNull();
    expect(today.pairs).toContainEqual({ teacher: first.learner, learner: second.teacher });
  });

  it("lets the one teach who has taught less", () => {
    const [first, second] = round.pairs;
    if (first === undefined || second === undefined) throw new Error("There are no two pairs");
    const absent = new Set([first.teacher, second.learner]);
    const today = withoutAbsent(round, absent, new Map([[first.learner, 3]]));
    expect(today.pairs).toContainEqual({ teacher: second.teacher, learner: first.learner });
  });

  it("one left over sits out, and joins another day's odd one", () => {
    const [first] = round.pairs;
    const one = withoutAbsent(round, new Set([first?.teacher ?? 0]), new Map());
    expect(one.out).toBe(first?.learner);
    const odd = tutoringRounds(5)[0];
    if (odd === undefined) throw new Error("There is no round");
    const gone = odd.pairs[0]?.teacher ?? 0;
    const today = withoutAbsent(odd, new Set([gone]), new Map());
    expect(today.out).toBeNull();
    expect(today.pairs.flatMap(({ teacher, learner }) => [teacher, learner])).toContain(odd.out);
  });
});

it("one student alone makes no pair", () => {
  expect(() => tutoringRounds(1)).toThrow("students must be a whole number from 2; got 1");
});
