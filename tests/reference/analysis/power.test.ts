import { expect, it } from "vitest";
import { meanInflation } from "../../../shared/statistics/planning/mean-inflation.ts";
import { tPower } from "../../../shared/statistics/planning/t-power.ts";

// R 4.2.2: pt(qt(.975, degrees), degrees, ncp = effect, lower.tail = FALSE).
it.each([
  [3, 18, 0.809706],
  [3, 6, 0.70671],
  [2.5, 40, 0.684264],
  [4, 5, 0.887258],
  [1, 10, 0.14612],
  [2.8, 1000, 0.798801],
  [3.5, 9.3, 0.877404],
])(
  "a difference of %f standard errors on %f degrees is found as often as R says",
  (effect, degrees, power) => {
    expect(Math.abs(tPower(effect, degrees) - power)).toBeLessThan(0.005);
  },
);

// R 4.2.2: sum(0.2^abs(outer(1:n, 1:n, "-"))) / n.
it.each([
  [1, 1.0],
  [3, 1.293333],
  [10, 1.4375],
  [100, 1.49375],
])("a mean of %i neighbours correlated at .2 varies as much more as R says", (count, inflation) => {
  expect(meanInflation(count, 0.2)).toBeCloseTo(inflation, 6);
});

it("refuses what cannot be", () => {
  expect(() => tPower(1, 0)).toThrow("above 0; got 0");
  expect(() => meanInflation(0, 0.2)).toThrow("1 or more; got 0");
  expect(() => meanInflation(3, 1)).toThrow("below 1; got 1");
});
