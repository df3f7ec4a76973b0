import { describe, expect, it } from "vitest";
import { sessionCode } from "../../../../shared/record/session-code.ts";

const stack = { groupId: "group", planName: "First plan", day: "2026-03-02", place: 1 };

describe("the code on a stack of cards", () => {
  it("is four capitals and figures, none of which looks like another or makes a word", () => {
    for (let index = 0; index < 500; index++) {
      expect(sessionCode({ ...stack, groupId: `group ${index}` })).toMatch(
        /^[CDFHJKMNPRTVWXY34789]{4}$/,
      );
    }
  });

  it("is the same whenever the same stack is printed or typed in", () => {
    expect(sessionCode({ ...stack })).toBe(sessionCode({ ...stack }));
  });

  it("differs by day, plan and group, and for cards without a day", () => {
    const codes = [
      sessionCode(stack),
      sessionCode({ ...stack, day: "2026-03-03" }),
      sessionCode({ ...stack, planName: "Thinner" }),
      sessionCode({ ...stack, groupId: "another" }),
      sessionCode({ ...stack, day: null }),
    ];
    expect(new Set(codes).size).toBe(codes.length);
  });

  it("tells the sessions of one day apart, and without a day says nothing of their order", () => {
    const ofPlace = (place: number) => sessionCode({ ...stack, place });
    expect(new Set([1, 2, 3].map(ofPlace)).size).toBe(3);
    const open = (place: number) => sessionCode({ ...stack, day: null, place });
    expect(open(2)).toBe(open(1));
  });

  it("is hardly ever shared within a school year of three plans and two groups", () => {
    const codes = new Set<string>();
    for (const groupId of ["one", "two"]) {
      for (const planName of ["Dense", "Thinner", "Thin"]) {
        for (let day = 0; day < 190; day++) {
          codes.add(sessionCode({ groupId, planName, day: `day ${day}`, place: 1 }));
        }
      }
    }
    // 1,140 codes of 160,000: about four pairs alike are to be expected (n squared / 2 N), never many.
    expect(codes.size).toBeGreaterThan(1_140 - 15);
  });
});
