import { expect, it } from "vitest";
import { checkKeyOf } from "../../../../../src/screens/session/use-check-keys.ts";

it("checks are answered by the digits above the letters, whatever the layout writes there, and never by the pad", () => {
  expect(checkKeyOf({ code: "Digit1", key: "1" })).toBe("1");
  // A French keyboard writes an ampersand there.
  expect(checkKeyOf({ code: "Digit1", key: "&" })).toBe("1");
  expect(checkKeyOf({ code: "Numpad1", key: "1" })).toBe("");
  expect(checkKeyOf({ code: "KeyQ", key: "Q" })).toBe("q");
});
