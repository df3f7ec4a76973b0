import { describe, expect, it } from "vitest";
import {
  type ClassDifference,
  classDifference,
} from "../../../shared/analysis/statements/class-difference.ts";
import { ratePoints } from "../../../shared/analysis/statements/points.ts";
import { dayNumber, dayText } from "../../../shared/calendar/calendar.ts";
import r from "../data/mantel-haenszel-r.json" with { type: "json" };

const first = dayNumber("2024-09-02");

/** One session of so many marks, on the first day or a week later. */
const stretch = (on: number, off: number, later: boolean) => {
  const day = first + (later ? 7 : 0);
  const startedAt = day * 86_400_000;
  const counts = { on, off, missing: 0, source: "self" as const };
  return ratePoints([{ sessionId: String(day), startedAt, day: dayText(day), ...counts }]);
};

function changeOf(held: (typeof r.classes)[number]): ClassDifference {
  const { lateOn, lateOff, earlyOn, earlyOff } = held;
  const found = classDifference(
    lateOn.map((on, at) => ({
      later: stretch(on, lateOff[at] ?? 0, true),
      earlier: stretch(earlyOn[at] ?? 0, earlyOff[at] ?? 0, false),
    })),
  );
  if (found === null) throw new Error(`nothing is said of ${held.name}`);
  return found;
}

/**
 * mantelhaen.test's statistic without continuity correction, from the difference that is asked about: its
 * square times the square of all weights, over the hypergeometric variance of the "on" marks.
 */
function statisticOf(held: (typeof r.classes)[number], difference: number): number {
  let [weights, variance] = [0, 0];
  held.lateOn.forEach((on, at) => {
    const [lateOff, earlyOn, earlyOff] = [
      held.lateOff[at] ?? 0,
      held.earlyOn[at] ?? 0,
      held.earlyOff[at] ?? 0,
    ];
    const [late, early] = [on + lateOff, earlyOn + earlyOff];
    const all = late + early;
    weights += (late * early) / all;
    variance += (late * early * (on + earlyOn) * (lateOff + earlyOff)) / (all * all * (all - 1));
  });
  return (difference * weights) ** 2 / variance;
}

describe(`the class's change, by ${r.source}, seed ${r.seed}`, () => {
  it.each(r.classes)("has mantelhaen.test's statistic and rma.mh's difference: $name", (held) => {
    const { points } = changeOf(held);
    expect(points / 100).toBeCloseTo(held.difference, 12);
    expect(statisticOf(held, points / 100) / held.statistic).toBeCloseTo(1, 9);
    // In the direction of R's common odds ratio.
    expect(Math.sign(points)).toBe(Math.sign(Math.log(held.oddsRatio)));
  });

  it.each(r.classes)("is never surer than where every mark is independent: $name", (held) => {
    const { standardError, interval } = changeOf(held);
    expect(standardError / 100).toBeGreaterThanOrEqual(held.error);
    expect(interval.lower / 100).toBeLessThanOrEqual(held.lower);
    expect(interval.upper / 100).toBeGreaterThanOrEqual(held.upper);
  });
});
