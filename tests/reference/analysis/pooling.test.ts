import { describe, expect, it } from "vitest";
import { designEffect } from "../../../shared/analysis/dispersion.ts";
import { patternBy } from "../../../shared/analysis/patterns.ts";
import { criticalZ } from "../../../shared/statistics/normal.ts";
import stored from "../data/pooling.json" with { type: "json" };

interface Stretch {
  readonly on: readonly number[];
  readonly total: readonly number[];
}

const countsOf = ({ on, total }: Stretch) =>
  on.map((count, at) => ({ on: count, off: (total[at] ?? 0) - count, missing: 0 }));

// scripts/reference/pooling.py says which function gave what.
describe(`the design effect against ${stored.source}, seed ${stored.seed}`, () => {
  // Litters of Weil (1970), as in Williams (1975), Biometrics 31:949-952.
  it.each(Object.entries(stored.weil))(
    "Weil's %s litters: robust over model variance",
    (...row) => {
      const [, litters] = row;
      expect(designEffect([countsOf(litters)]).designEffect).toBeCloseTo(litters.effect, 10);
    },
  );

  it("one stretch of sessions, raised to 1 where it falls below", () => {
    for (const stretch of stored.stretches) {
      const { designEffect: effect, degrees } = designEffect([countsOf(stretch)]);
      expect(effect).toBeCloseTo(Math.max(1, stretch.effect), 10);
      expect(degrees).toBe(stretch.on.length - 1);
    }
    const below = stored.stretches.filter(({ effect }) => effect < 1).length;
    expect(below).toBeGreaterThan(0);
    expect(below).toBeLessThan(stored.stretches.length);
  });

  it("several stretches, each weighing by its binomial variance", () => {
    for (const { stretches, effect } of stored.several) {
      const found = designEffect(stretches.map(countsOf)).designEffect;
      expect(found).toBeCloseTo(Math.max(1, effect), 10);
    }
  });
});

describe(`rates of kinds drawn together, against ${stored.source}, seed ${stored.seed}`, () => {
  const patternOf = (kinds: readonly Stretch[]) => {
    const sessions = kinds.flatMap((kind, subject) =>
      countsOf(kind).map((counts, at) => ({
        ...counts,
        sessionId: `${subject} ${at}`,
        startedAt: at,
        day: "2026-03-02",
        source: "self" as const,
        subject: String(subject),
      })),
    );
    const found = patternBy(sessions, ({ subject }) => subject ?? null);
    if (found.kind === "not-enough") throw new Error(found.reason);
    return found;
  };

  it("DerSimonian and Laird's spread between kinds, as combine_effects has it", () => {
    for (const { kinds, between } of stored.kinds) {
      expect(patternOf(kinds).between).toBeCloseTo(between, 10);
    }
    expect(new Set(stored.kinds.map(({ between }) => between > 0)).size).toBe(2);
  });

  it("shrunk rates and their errors, as Henderson's mixed-model equations have them", () => {
    for (const { kinds, shrunk, errors } of stored.kinds) {
      patternOf(kinds).kinds.forEach(({ shrunkRate, interval }, at) => {
        const reach = criticalZ(0.95) * (errors[at] ?? 0);
        const rate = shrunk[at] ?? 0;
        expect(shrunkRate).toBeCloseTo(rate, 10);
        expect(interval.lower).toBeCloseTo(Math.max(0, rate - reach), 10);
        expect(interval.upper).toBeCloseTo(Math.min(1, rate + reach), 10);
      });
    }
  });
});
