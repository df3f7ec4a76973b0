import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { teamOutcome } from "../../../../shared/teams/team-outcome.ts";

const goal = 0.8;

// Worked by hand from the rule of the specification; common practice, no source.
describe("the outcome of a team", () => {
  it.each([
    [
      "one who never worked fails nobody",
      [
        [9, 1],
        [8, 2],
        [1, 9],
      ],
      "met",
    ],
    [
      "16 of 20 is the goal",
      [
        [8, 2],
        [8, 2],
        [0, 10],
      ],
      "met",
    ],
    [
      "15 of 20 is not yet",
      [
        [8, 2],
        [7, 3],
        [0, 10],
      ],
      "not-yet",
    ],
    [
      "two who marked are too few",
      [
        [9, 1],
        [9, 1],
        [0, 0],
      ],
      "no-data",
    ],
    [
      "four pooled marks are too few",
      [
        [2, 0],
        [2, 0],
        [2, 0],
      ],
      "no-data",
    ],
    [
      "nobody marked",
      [
        [0, 0],
        [0, 0],
        [0, 0],
      ],
      "no-data",
    ],
  ] as const)("%s", (_, members, outcome) => {
    expect(
      teamOutcome(
        members.map(([on, off]) => ({ on, off })),
        goal,
      ),
    ).toBe(outcome);
  });

  it("takes 0.7 of ten as seven", () => {
    const members = [
      { on: 7, off: 3 },
      { on: 7, off: 3 },
      { on: 7, off: 3 },
    ];
    expect(teamOutcome(members, 0.7)).toBe("met");
  });

  it("refuses a goal that is none", () => {
    expect(() => teamOutcome([], 0)).toThrow("goal must be above 0 and at most 1; got 0");
  });
});

const reaching = fc
  .tuple(fc.nat(30), fc.nat(30))
  .filter(([on, off]) => on + off > 0 && on >= goal * (on + off))
  .map(([on, off]) => ({ on, off }));
const any = fc.record({ on: fc.nat(30), off: fc.nat(30) });

describe("laws", () => {
  it("nobody alone can fail a team whose others all reach the goal", () => {
    fc.assert(
      fc.property(fc.array(reaching, { minLength: 2, maxLength: 7 }), any, (others, one) => {
        expect(teamOutcome([...others, one], goal)).not.toBe("not-yet");
      }),
    );
  });

  it("the order of the members says nothing", () => {
    fc.assert(
      fc.property(fc.array(any, { maxLength: 8 }), (members) => {
        expect(teamOutcome(members.toReversed(), goal)).toBe(teamOutcome(members, goal));
      }),
    );
  });
});
