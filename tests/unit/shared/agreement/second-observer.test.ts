import { describe, expect, it } from "vitest";
import { secondObserver } from "../../../../shared/agreement/second-observer.ts";

// "Agreement data in every phase and on at least 20 % of points in each condition": What Works
// Clearinghouse, Single-Case Designs Technical Documentation 1.0 (Kratochwill et al. 2010), as read in a
// copy of slides that quote it.
describe("a second observer at 20 % of a phase's points", () => {
  const sessions = (count: number) => Array.from({ length: count }, (_, at) => `s${at}`);
  const both = (sessionId: string) => ({ sessionId, first: "on", second: "off" }) as const;

  it.each([
    [5, 1, true],
    [10, 2, true],
    [9, 2, true],
    [6, 1, false],
    [10, 1, false],
    [30, 6, true],
    [5, 0, false],
    [1, 1, true],
  ])("%i observed sessions, %i of them twice: %s", (observed, twice, meets) => {
    const found = secondObserver(sessions(observed), sessions(twice).map(both));
    expect(found).toEqual({ kind: "computed", observed, twice, share: twice / observed, meets });
  });

  it("counts a session once, however many cues both saw, and no session of another phase", () => {
    const pairs = [both("s0"), both("s0"), both("elsewhere")];
    expect(secondObserver(sessions(5), pairs)).toMatchObject({ twice: 1 });
  });

  it("does not count a session in which only one of the two saw the student", () => {
    const pairs = [
      { sessionId: "s0", first: "on", second: "unseen" },
      { sessionId: "s1", first: "unseen", second: "off" },
    ] as const;
    expect(secondObserver(sessions(5), pairs)).toMatchObject({ twice: 0, meets: false });
  });

  it("has nothing to say of a phase that nobody observed", () => {
    expect(secondObserver([], [both("s0")])).toEqual({
      kind: "not-computable",
      reason: "not-observed",
    });
  });
});
