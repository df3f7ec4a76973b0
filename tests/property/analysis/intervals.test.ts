import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { designEffect } from "../../../shared/analysis/dispersion.ts";
import { pooledRate } from "../../../shared/analysis/pooled.ts";
import { newcombeDifference } from "../../../shared/statistics/newcombe.ts";
import { normalCdf, normalQuantile } from "../../../shared/statistics/normal.ts";
import { wilsonInterval } from "../../../shared/statistics/wilson.ts";

const share = fc
  .tuple(fc.nat(500), fc.nat(500))
  .filter(([on, off]) => on + off > 0)
  .map(([on, off]) => ({ on, total: on + off }));

const counts = fc.record({ on: fc.nat(12), off: fc.nat(12), missing: fc.nat(3) });

describe("Wilson's interval", () => {
  it("lies in 0 to 1, contains the rate and mirrors", () => {
    fc.assert(
      fc.property(share, ({ on, total }) => {
        const interval = wilsonInterval(on, total);
        expect(interval.lower).toBeGreaterThanOrEqual(0);
        expect(interval.upper).toBeLessThanOrEqual(1);
        expect(interval.lower).toBeLessThanOrEqual(on / total);
        expect(interval.upper).toBeGreaterThanOrEqual(on / total);
        const mirrored = wilsonInterval(total - on, total);
        expect(mirrored.lower).toBeCloseTo(1 - interval.upper, 13);
      }),
    );
  });

  it("narrows with more marks and widens with more confidence", () => {
    fc.assert(
      fc.property(share, fc.integer({ min: 2, max: 9 }), ({ on, total }, times) => {
        const width = (k: number, confidence: number) => {
          const { lower, upper } = wilsonInterval(on * k, total * k, confidence);
          return upper - lower;
        };
        expect(width(times, 0.95)).toBeLessThan(width(1, 0.95));
        expect(width(1, 0.8)).toBeLessThan(width(1, 0.95));
      }),
    );
  });

  it("moves up with every mark that turns to on task", () => {
    fc.assert(
      fc.property(share, ({ on, total }) => {
        fc.pre(on < total);
        expect(wilsonInterval(on + 1, total).lower).toBeGreaterThan(
          wilsonInterval(on, total).lower,
        );
      }),
    );
  });
});

describe("Newcombe's interval", () => {
  it("contains the difference, lies in -1 to 1 and turns over when the two change places", () => {
    fc.assert(
      fc.property(share, share, (a, b) => {
        const one = newcombeDifference(a, b);
        const other = newcombeDifference(b, a);
        expect(one.interval.lower).toBeGreaterThanOrEqual(-1);
        expect(one.interval.upper).toBeLessThanOrEqual(1);
        expect(one.interval.lower).toBeLessThanOrEqual(one.difference);
        expect(one.interval.upper).toBeGreaterThanOrEqual(one.difference);
        expect(one.difference + other.difference).toBe(0);
        expect(one.interval.lower + other.interval.upper).toBeCloseTo(0, 14);
      }),
    );
  });
});

describe("the design effect", () => {
  it("is never below 1, whatever the order of the sessions", () => {
    fc.assert(
      fc.property(fc.array(counts, { maxLength: 40 }), (sessions) => {
        const found = designEffect([sessions]);
        expect(found.designEffect).toBeGreaterThanOrEqual(1);
        expect(Number.isFinite(found.designEffect)).toBe(true);
        expect(designEffect([sessions.toReversed()]).designEffect).toBeCloseTo(
          found.designEffect,
          9,
        );
      }),
    );
  });

  it("doubles when every mark stands for two", () => {
    const sessions = [3, 9, 1, 7, 5].map((on) => ({ on, off: 10 - on, missing: 0 }));
    const doubled = sessions.map(({ on, off }) => ({ on: 2 * on, off: 2 * off, missing: 0 }));
    const { designEffect: once } = designEffect([sessions]);
    expect(once).toBeGreaterThan(1);
    expect(designEffect([doubled]).designEffect).toBeCloseTo(2 * once, 12);
  });

  it("only ever widens a pooled interval", () => {
    fc.assert(
      fc.property(fc.array(counts, { minLength: 1, maxLength: 30 }), (sessions) => {
        const dispersed = pooledRate(sessions);
        const plain = pooledRate(sessions, { designEffect: 1 });
        if (dispersed.kind === "not-enough" || plain.kind === "not-enough") return;
        expect(dispersed.rate).toBe(plain.rate);
        expect(dispersed.interval.lower).toBeLessThanOrEqual(plain.interval.lower + 1e-15);
        expect(dispersed.interval.upper).toBeGreaterThanOrEqual(plain.interval.upper - 1e-15);
      }),
    );
  });
});

describe("the normal distribution", () => {
  it("undoes its quantile", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-12, max: 1 - 1e-12, noNaN: true }), (p) => {
        expect(Math.abs(normalCdf(normalQuantile(p)) - p)).toBeLessThan(4e-15);
      }),
    );
  });
});
