import { describe, expect, it } from "vitest";
import { pointKey } from "../../../../src/live/points/use-point-keys.ts";

describe("keys for points", () => {
  it("pad digits give; minus and then a digit takes, for two seconds and once", () => {
    expect(pointKey("Numpad1", 0, null)).toEqual({ kind: "give", place: 0 });
    expect(pointKey("Numpad4", 0, null)).toEqual({ kind: "give", place: 3 });
    expect(pointKey("NumpadSubtract", 0, null)).toBe("minus");
    expect(pointKey("Numpad2", 2_000, 0)).toEqual({ kind: "take", place: 1 });
    expect(pointKey("Numpad2", 2_001, 0)).toEqual({ kind: "give", place: 1 });
  });

  it("a presenter's forward gives and its back takes for the first pinned", () => {
    expect(pointKey("PageDown", 0, null)).toEqual({ kind: "give", place: 0 });
    expect(pointKey("PageUp", 0, null)).toEqual({ kind: "take", place: 0 });
  });

  it("leaves the spot checks' digits and all other keys alone", () => {
    for (const code of ["Digit1", "Digit8", "Numpad5", "KeyQ", "Escape", "F5"]) {
      expect(pointKey(code, 0, null)).toBeNull();
    }
  });
});
