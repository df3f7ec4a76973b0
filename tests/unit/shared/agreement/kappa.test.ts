import { describe, expect, it } from "vitest";
import { cohenKappa } from "../../../../shared/agreement/kappa.ts";

describe("a table that is no kappa table is refused", () => {
  it.each([
    [[[1]], "two categories"],
    [[[1, 2], [3]], "as many columns as rows"],
    [
      [
        [1, -2],
        [3, 4],
      ],
      "counts",
    ],
    [
      [
        [1, Number.NaN],
        [3, 4],
      ],
      "counts",
    ],
  ])("%j", (table, message) => {
    expect(() => cohenKappa(table)).toThrow(message);
  });
});

it("is 1 with a standard error of 0 when the records match throughout", () => {
  expect(
    cohenKappa([
      [7, 0],
      [0, 5],
    ]),
  ).toMatchObject({ value: 1, standardError: 0, adjusted: 1 });
});

it("is 0 when one record never varies", () => {
  expect(
    cohenKappa([
      [7, 5],
      [0, 0],
    ]),
  ).toMatchObject({ kind: "computed", value: 0 });
});
