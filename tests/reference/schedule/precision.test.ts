import { describe, expect, it } from "vitest";
import { exponential } from "../../../shared/schedule/exponential.ts";
import { fixed } from "../../../shared/schedule/fixed.ts";
import type { IntervalLaw } from "../../../shared/schedule/interval-law.ts";
import {
  type Bouts,
  evenMomentsError,
  evenMomentsVariance,
  renewalVariance,
  switchingRate,
  trueRate,
  trueShareVariance,
} from "../../../shared/schedule/precision.ts";
import { type RandomStream, randomStream } from "../../../shared/schedule/stream.ts";
import { uniform } from "../../../shared/schedule/uniform.ts";

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
    error: 0.0107469,
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
    error: 0.0070855,
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
    error: 0.0161204,
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
    error: 0.0143772,
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

    it("has the tabled rate, variance of the true share, and error of evenly spread moments", () => {
      expect(trueRate(bouts)).toBeCloseTo(row.p, 6);
      expect(trueShareVariance(bouts, length)).toBeCloseTo(row.share, 7);
      expect(evenMomentsVariance(bouts, length, cues)).toBeCloseTo(row.variance, 7);
      expect(evenMomentsError(bouts, length, cues)).toBeCloseTo(row.error, 7);
    });

    it("has the tabled variance under fixed and exponential intervals", () => {
      expect(varianceUnder(fixed(spaced), bouts, cues)).toBeCloseTo(row.fixedVariance, 7);
      expect(varianceUnder(exponential(spaced), bouts, cues)).toBeCloseTo(
        row.exponentialVariance,
        7,
      );
    });

    it("agrees with our own simulated sessions", () => {
      for (const law of [fixed(spaced), exponential(spaced)]) {
        const sessions = 20_000;
        const stream = randomStream(`${law.name} ${cues}`, "simulation");
        const shares = Array.from({ length: sessions }, () =>
          markedShare(law, bouts, cues, stream),
        );
        const p = trueRate(bouts);
        const variance = shares.reduce((sum, share) => sum + (share - p) ** 2, 0) / sessions;
        const expected = varianceUnder(law, bouts, cues);
        // Four standard errors of a variance: 4 sqrt(2 / sessions) of it, for a near-normal share.
        expect(Math.abs(variance / expected - 1)).toBeLessThan(4 * Math.sqrt(2 / sessions));
      }
    });
  },
);

/** One session's share of marks on task: the student's state followed bout by bout, cue by cue. */
function markedShare(law: IntervalLaw, bouts: Bouts, cues: number, stream: RandomStream): number {
  const bout = (on: boolean) => -Math.log1p(-stream()) * (on ? bouts.onSeconds : bouts.offSeconds);
  const nextGap = law.gaps(stream);
  let on = stream() < trueRate(bouts);
  let left = bout(on);
  let marked = 0;
  for (let cue = 0; cue < cues; cue++) {
    let gap = nextGap();
    while (gap > left) {
      gap -= left;
      on = !on;
      left = bout(on);
    }
    left -= gap;
    if (on) marked += 1;
  }
  return marked / cues;
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
