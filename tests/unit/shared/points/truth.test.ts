import { describe, expect, it } from "vitest";
import { type EarningRules, noRules } from "../../../../shared/plan/earning.ts";
import {
  alwaysYesGain,
  leastTruthfulChecks,
  plannedCheckedShare,
  truthPays,
  usualRules,
} from "../../../../shared/points/truth.ts";
import { worthOf } from "../../../../shared/points/worth.ts";
import { randomStream } from "../../../../shared/schedule/stream.ts";
import { ada, begun, check, delivered, mark, type Said, stateOf } from "./log.ts";

describe("the usual rule", () => {
  it.each([
    [0.15, 1, 7],
    [0.5, 1, 2],
    [1, 1, 2],
    [0.25, 1, 4],
    [0.1, 1, 10],
    // A class of 24 checked two at a time.
    [2 / 24, 0, 2],
    [0, 0, 2],
  ])("with a share of %f checked pays %i for on task and %i for a match", (share, on, match) => {
    expect(usualRules(share)).toEqual({ ...noRules, mark: 1, on, match });
    expect(truthPays(usualRules(share), share)).toBe("pays");
  });

  it("is claimed of no rule with a goal by the student's own marks", () => {
    expect(truthPays({ ...usualRules(0.15), goal: 3 }, 0.15)).toBe("not-claimed");
    expect(truthPays({ ...noRules, on: 1, match: 6 }, 0.15)).toBe("does-not-pay");
  });

  it("knows what always-yes would gain a day", () => {
    const day = { onTask: 0.5, cuesADay: 30 };
    expect(alwaysYesGain({ ...noRules, on: 1 }, 0.1, day)).toBeCloseTo(15, 9);
    expect(alwaysYesGain(usualRules(0.15), 0.15, day)).toBeLessThan(0);
    expect(plannedCheckedShare({ studentsPerCheck: 2, every: 1 }, 8)).toBe(0.25);
    expect(plannedCheckedShare({ studentsPerCheck: 2, every: 4 }, 24)).toBeCloseTo(1 / 48, 9);
  });
});

/** Mean points of a session for one way of recording, by the app's own fold and worth. */
function incomes(rules: EarningRules, share: number, onTask: number, yesWhenOff: number): number[] {
  const stream = randomStream("lantern", `truth/${share}/${onTask}`);
  return Array.from({ length: 400 }, () => {
    const said: Said[] = [begun];
    for (let cue = 1; cue <= 10; cue++) {
      const truth = stream() < onTask ? "on" : "off";
      const [lies, checked] = [stream() < yesWhenOff, stream() < share];
      said.push(delivered(cue), mark(ada, cue, lies ? "on" : truth));
      if (checked) said.push(check(ada, cue, truth));
    }
    const earning = { kind: "own", rules } as const;
    const worth = worthOf({ earning, kind: "seatwork", imported: false }, stateOf(...said), ada);
    return Object.values(worth).reduce((sum, each) => sum + each, 0);
  });
}

const meanOf = (values: readonly number[]) =>
  values.reduce((sum, each) => sum + each, 0) / values.length;

describe("honest, always-yes and mostly-yes students, simulated", () => {
  const shares = [1, 0.4, 0.22, 0.15, 0.11, 2 / 24];
  const cases = shares.flatMap((share) => [0.3, 0.5, 0.8].map((p) => [share, p] as const));

  it.each(cases)("with a share of %f checked and %f on task the truth pays", (share, p) => {
    const rules = usualRules(share);
    expect(truthPays(rules, share)).toBe("pays");
    const honest = incomes(rules, share, p, 0);
    for (const yesWhenOff of [1, 0.7]) {
      // The same moments and checks for all three, so the difference is the recording's alone.
      const gains = incomes(rules, share, p, yesWhenOff).map(
        (each, at) => each - (honest[at] ?? 0),
      );
      const gain = meanOf(gains);
      const error = Math.sqrt(meanOf(gains.map((each) => (each - gain) ** 2)) / gains.length);
      expect(gain).toBeLessThan(3 * error + 1e-9);
    }
  });

  it("without checks always-yes gains, and the app does not say that the truth pays", () => {
    const rules = { ...noRules, mark: 1, on: 1, match: 7 };
    expect(truthPays(rules, 0.05)).toBe("does-not-pay");
    const gain = meanOf(incomes(rules, 0.05, 0.5, 1)) - meanOf(incomes(rules, 0.05, 0.5, 0));
    expect(gain).toBeGreaterThan(0);
  });
});

describe("more checks", () => {
  const rules = { ...noRules, mark: 1, on: 1, match: 6 };

  it("are as few students at every cue as make the truth pay: c m >= b, with c of the students over all", () => {
    // Of 24 students four have to be seen for c = 1/6; of 25 four are too few.
    expect(leastTruthfulChecks(rules, 24)).toBe(4);
    expect(leastTruthfulChecks(rules, 25)).toBeNull();
    expect(leastTruthfulChecks(rules, 6)).toBe(1);
    expect(leastTruthfulChecks({ ...rules, match: 0 }, 24)).toBeNull();
  });
});
