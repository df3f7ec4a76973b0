import { expect, it } from "vitest";
import { twoByTwo } from "../../../../shared/agreement/two-by-two.ts";

it("counts the four cells and leaves pairs with a blank out, counted", () => {
  const table = twoByTwo([
    { first: "on", second: "on" },
    { first: "on", second: "on" },
    { first: "on", second: "off" },
    { first: "off", second: "on" },
    { first: "off", second: "off" },
    { first: "none", second: "off" },
    { first: "on", second: "unseen" },
    { first: "off", second: "unseen" },
    { first: "none", second: "unseen" },
  ]);
  expect(table).toEqual({
    bothOn: 2,
    firstOnly: 1,
    secondOnly: 1,
    bothOff: 1,
    compared: 5,
    leftOut: { firstBlank: 1, secondBlank: 2, bothBlank: 1 },
  });
});

it("is all zeros without pairs", () => {
  expect(twoByTwo([])).toMatchObject({ compared: 0, bothOn: 0, bothOff: 0 });
});
