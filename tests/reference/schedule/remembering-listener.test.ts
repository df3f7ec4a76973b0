import { describe, expect, it } from "vitest";
import { firstPlan } from "../../../shared/plan/plan.ts";
import { balancedTerms, fleshlerHoffman, shuffled } from "../../../shared/schedule/balanced.ts";
import { blockCatch } from "../../../shared/schedule/block-guess.ts";
import { guess } from "../../../shared/schedule/guess.ts";
import { ageSteps, listenerEdges } from "../../../shared/schedule/listener.ts";
import { planLaw } from "../../../shared/schedule/plan-law.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";

/**
 * A listener who remembers which intervals of a block have come, played second by second instead of
 * computed: elapsed time is felt with a normal error of 15 % in its logarithm. In the first half of the
 * blocks the listener learns which felt times, with which intervals left, have most cues; in the second
 * half it is on the alert a quarter of the time. Returns the share of cues caught.
 */
function simulatedCatch(terms: readonly number[], blocks: number): number {
  const stream = randomStream(`block of ${terms.length}`, "listener");
  const normal = () => Math.sqrt(-2 * Math.log(1 - stream())) * Math.cos(2 * Math.PI * stream());
  const felt = (left: number, seconds: number) =>
    1000 * left + Math.round(10 * Math.log(seconds * Math.exp(0.15 * normal())));
  const places = terms.map((_, index) => index);

  const listen = () => {
    const time = new Map<number, number>();
    const hits = new Map<number, number>();
    const add = (counts: Map<number, number>, key: number) =>
      counts.set(key, (counts.get(key) ?? 0) + 1);
    for (let block = 0; block < blocks; block++) {
      let left = 2 ** terms.length - 1;
      for (const place of shuffled(places, stream)) {
        const gap = terms[place] ?? 0;
        for (let age = stream(); age < gap; age += 1) add(time, felt(left, age));
        add(hits, felt(left, gap));
        left -= 2 ** place;
      }
    }
    return { time, hits };
  };
  const total = (counts: Map<number, number>) =>
    [...counts.values()].reduce((sum, count) => sum + count, 0);

  const learned = listen();
  const rate = (key: number) => (learned.hits.get(key) ?? 0) / (learned.time.get(key) ?? 1);
  const tested = listen();
  const keys = [...new Set([...tested.time.keys(), ...tested.hits.keys()])].sort(
    (one, other) => rate(other) - rate(one),
  );
  let timeLeft = 0.25 * total(tested.time);
  let caught = 0;
  for (const key of keys) {
    const time = tested.time.get(key) ?? 0;
    const taken = time === 0 ? 1 : Math.min(1, timeLeft / time);
    caught += taken * (tested.hits.get(key) ?? 0);
    timeLeft -= taken * time;
    if (timeLeft <= 0) break;
  }
  return caught / total(tested.hits);
}

const always = (terms: readonly number[]) => terms.map(() => 1);
const edges = (terms: readonly number[]) =>
  listenerEdges({
    ...planLaw({ ...firstPlan, law: "balanced" }),
    meanSeconds: terms.reduce((sum, term) => sum + term, 0) / terms.length,
    longestSeconds: Math.max(...terms),
  });

describe("a listener who remembers the block", () => {
  it.each([1, 2, 3, 4])("of %i intervals catches what a simulated one catches", (count) => {
    const terms = fleshlerHoffman(60, count).map((term) => term + 10);
    const computed = blockCatch(terms, always(terms), edges(terms));
    const simulated = simulatedCatch(terms, 12_000 / count);
    expect(Math.abs(computed - simulated)).toBeLessThan(0.02);
  });

  it("catches more than one who forgets, and more the more of its blocks a session has", () => {
    const plan = { ...firstPlan, law: "balanced", fewestCues: 0 } as const;
    const short = guess({ ...plan, lengthSeconds: 600 });
    const usual = guess(plan);
    const long = guess({ ...plan, lengthSeconds: 10_800 });
    expect(short.blockGivesAway).toBeGreaterThan(short.beatsChanceBy);
    expect(usual.blockGivesAway).toBeGreaterThan(short.blockGivesAway);
    expect(long.blockGivesAway).toBeGreaterThan(usual.blockGivesAway);
    // Endless sessions: every place as often as the others.
    const terms = balancedTerms(plan);
    const endless = blockCatch(terms, always(terms), listenerEdges(planLaw(plan))) - 0.25;
    expect(long.blockGivesAway).toBeLessThan(endless);
    expect(endless - long.blockGivesAway).toBeLessThan(0.02);
  });

  it("at the first place of a block knows no more than one who forgets", () => {
    const plan = { ...firstPlan, law: "balanced", fewestCues: 0 } as const;
    const terms = balancedTerms(plan);
    const first = terms.map((_, place) => (place === 0 ? 1 : 0));
    const step = ageSteps.fewWaits;
    const caught = blockCatch(terms, first, listenerEdges(planLaw(plan), step), step);
    expect(caught).toBeCloseTo(guess(plan).caughtShare, 3);
  });

  it("is there under the balanced law only", () => {
    for (const law of ["exponential", "uniform", "fixed"] as const) {
      expect(guess({ ...firstPlan, law }).blockGivesAway).toBe(0);
    }
  });
});
