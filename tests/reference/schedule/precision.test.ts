import { describe, expect, it } from "vitest";
import { firstPlan, type PlanSettings } from "../../../shared/plan/plan.ts";
import { exponential } from "../../../shared/schedule/exponential.ts";
import { fixed } from "../../../shared/schedule/fixed.ts";
import type { IntervalLaw } from "../../../shared/schedule/interval-law.ts";
import {
  type Bouts,
  renewalVariance,
  sessionPrecision,
  switchingRate,
  trueRate,
} from "../../../shared/schedule/precision.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";
import { type RandomStream, randomStream } from "../../../shared/schedule/stream.ts";
import { uniform } from "../../../shared/schedule/uniform.ts";
import { evenMomentsVariance, trueShareVariance } from "./even-moments.ts";

// Closed forms of a two-state Markov process, worked out and checked against 20 000 sessions a row
// simulated with numpy. Bouts and lengths in seconds.
const table = [
  {
    bouts: { onSeconds: 60, offSeconds: 30 },
    length: 1200,
    cues: 20,
    p: 0.666667,
    share: 0.007284,
    variance: 0.0180309,
    fixedVariance: 0.0122142,
    exponentialVariance: 0.0180247,
  },
  {
    bouts: { onSeconds: 120, offSeconds: 60 },
    length: 1800,
    cues: 30,
    p: 0.666667,
    share: 0.0096571,
    variance: 0.0167426,
    fixedVariance: 0.0114799,
    exponentialVariance: 0.0167353,
  },
  {
    bouts: { onSeconds: 30, offSeconds: 30 },
    length: 900,
    cues: 15,
    p: 0.5,
    share: 0.0081944,
    variance: 0.0243148,
    fixedVariance: 0.0172463,
    exponentialVariance: 0.0243056,
  },
  {
    bouts: { onSeconds: 300, offSeconds: 100 },
    length: 1800,
    cues: 12,
    p: 0.75,
    share: 0.014974,
    variance: 0.0293511,
    fixedVariance: 0.0200448,
    exponentialVariance: 0.0292969,
  },
];

function varianceUnder(law: IntervalLaw, bouts: Bouts, cues: number): number {
  return renewalVariance(trueRate(bouts), law.expectedDecay(switchingRate(bouts)), cues);
}

describe.each(table)(
  "$cues cues in $length s, bouts $bouts.onSeconds and $bouts.offSeconds",
  (row) => {
    const { bouts, length, cues } = row;
    const spaced = { meanSeconds: length / cues, shortestGapSeconds: 0, longestGapSeconds: null };

    it("has the tabled rate; so have the closed forms of evenly spread moments their variances", () => {
      expect(trueRate(bouts)).toBeCloseTo(row.p, 6);
      expect(trueShareVariance(bouts, length)).toBeCloseTo(row.share, 7);
      expect(evenMomentsVariance(bouts, length, cues)).toBeCloseTo(row.variance, 7);
    });

    it("has the tabled variance under fixed and exponential intervals", () => {
      expect(varianceUnder(fixed(spaced), bouts, cues)).toBeCloseTo(row.fixedVariance, 7);
      expect(varianceUnder(exponential(spaced), bouts, cues)).toBeCloseTo(
        row.exponentialVariance,
        7,
      );
    });
  },
);

/** A plan whose shortest gap is a sixth of the mean unless told, as the app's first one is. */
function planWith(change: Partial<PlanSettings> & { meanSeconds: number }): PlanSettings {
  return { ...firstPlan, shortestGapSeconds: Math.round(change.meanSeconds / 6), ...change };
}

describe("the precision of a session as it is drawn", () => {
  const bouts = { onSeconds: 120, offSeconds: 60 };
  const plans: [string, PlanSettings][] = [
    // Two would nearly fit, but there is always one cue.
    ["fixed 11m", planWith({ law: "fixed", meanSeconds: 660 })],
    ["fixed 2m", planWith({ law: "fixed", meanSeconds: 120 })],
    ["exponential 2m", planWith({ meanSeconds: 120 })],
    ["exponential 5m", planWith({ meanSeconds: 300 })],
    ["exponential 15m, no gap", planWith({ meanSeconds: 900, shortestGapSeconds: 0 })],
    ["exponential 10m, no floor", planWith({ meanSeconds: 600, fewestCues: 0 })],
    ["exponential 2m, at least 10", planWith({ meanSeconds: 120, fewestCues: 10 })],
    ["exponential 4m up to 10m", planWith({ meanSeconds: 240, longestGapSeconds: 600 })],
    ["uniform 2m", planWith({ law: "uniform", meanSeconds: 120 })],
    ["uniform 5m", planWith({ law: "uniform", meanSeconds: 300 })],
    ["uniform 7m", planWith({ law: "uniform", meanSeconds: 420 })],
    ["balanced 5m", planWith({ law: "balanced", meanSeconds: 300 })],
  ];

  // The student is followed bout by bout through 10 000 schedules with fixed seeds. The simulation's own
  // standard error is below .003; one number of cues for all sessions would be out by up to .14.
  it.each(plans)("is what simulated sessions have: %s", (name, plan) => {
    const student = randomStream(name, "student");
    const shares = Array.from({ length: 10_000 }, (_, session) =>
      markedShare(sessionSchedule(plan, `${name}/${session}`).cues, bouts, student),
    ).filter((share) => share !== null);
    const p = trueRate(bouts);
    const variance = shares.reduce((sum, share) => sum + (share - p) ** 2, 0) / shares.length;
    const { standardDeviation } = sessionPrecision({ plan, bouts });
    expect(Math.abs(standardDeviation - Math.sqrt(variance))).toBeLessThan(0.008);
  });

  // Exact: given their number, the cues of the exponential law without a gap lie anywhere, evenly, and the
  // number is Poisson; so the variance is the closed form's, averaged over a Poisson number from 1 up.
  it.each([120, 300, 900])("is the exact one for exponential intervals of %d s", (meanSeconds) => {
    const plan = planWith({ meanSeconds, shortestGapSeconds: 0, fewestCues: 1 });
    const expected = plan.lengthSeconds / meanSeconds;
    let chance = Math.exp(-expected);
    let sum = 0;
    for (let cues = 1; cues < 60; cues++) {
      chance *= expected / cues;
      sum += chance * evenMomentsVariance(bouts, plan.lengthSeconds, cues);
    }
    const exact = Math.sqrt(sum / -Math.expm1(-expected));
    expect(Math.abs(sessionPrecision({ plan, bouts }).standardDeviation - exact)).toBeLessThan(
      0.005,
    );
  });
});

/** One session's share of marks on task: the student's state followed bout by bout; null without a cue. */
function markedShare(cues: readonly number[], bouts: Bouts, stream: RandomStream): number | null {
  const bout = (on: boolean) => -Math.log1p(-stream()) * (on ? bouts.onSeconds : bouts.offSeconds);
  let on = stream() < trueRate(bouts);
  let boutEnd = bout(on);
  let marked = 0;
  for (const cue of cues) {
    while (boutEnd < cue) {
      on = !on;
      boutEnd += bout(on);
    }
    if (on) marked += 1;
  }
  return cues.length === 0 ? null : marked / cues.length;
}

describe("how alike behaviour at two neighbouring cues is", () => {
  const bouts = { onSeconds: 60, offSeconds: 30 };
  const rate = switchingRate(bouts);

  // Worked example of the same closed forms: rectangular 15 to 105 s, and scale 60 s cut to 15 to 120 s,
  // whose mean is 52.916136 s.
  it("is as tabled for uniform and cut exponential intervals", () => {
    const rectangular = uniform({
      meanSeconds: 60,
      shortestGapSeconds: 15,
      longestGapSeconds: null,
    });
    expect(rectangular.expectedDecay(rate)).toBeCloseTo(0.103804, 6);
    expect(varianceUnder(rectangular, bouts, 20)).toBeCloseTo(0.0135415, 7);
    const cut = exponential({
      meanSeconds: 52.916136,
      shortestGapSeconds: 15,
      longestGapSeconds: 120,
    });
    expect(cut.expectedDecay(rate)).toBeCloseTo(0.142799, 6);
    expect(varianceUnder(cut, bouts, 20)).toBeCloseTo(0.0145971, 6);
  });

  // Closed form of the gap-shifted exponential: e^(-rg) / (1 + r (m - g)).
  it("follows the closed form for exponential intervals with a shortest gap", () => {
    const law = exponential({ meanSeconds: 120, shortestGapSeconds: 20, longestGapSeconds: null });
    expect(law.expectedDecay(rate)).toBeCloseTo(Math.exp(-rate * 20) / (1 + rate * 100), 14);
  });
});
