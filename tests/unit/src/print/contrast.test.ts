import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

const source = join(import.meta.dirname, "..", "..", "..", "..", "src");
const tokens = readFileSync(join(source, "tokens.css"), "utf8");
const sheetStyle = readFileSync(join(source, "print", "print.css"), "utf8");

/** Relative luminance of "#rrggbb": WCAG 2.2, definition of relative luminance. */
function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** Contrast ratio: WCAG 2.2, definition of contrast ratio. */
function contrast(one: string, other: string): number {
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

function token(name: string): string {
  const colour = new RegExp(`${name}: (#[0-9a-f]{6});`).exec(tokens)?.[1];
  if (colour === undefined) throw new Error(`tokens.css has no colour ${name}`);
  return colour;
}

describe("ink on paper", () => {
  it("is computed as WCAG does", () => {
    // WCAG 2.2: ratios run from 1 to 21. The greys lie on both sides of 4.5 on white: 4.5422 and 4.4781
    // by the formula for relative luminance, computed apart in Python.
    expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 9);
    expect(contrast("#ffffff", "#ffffff")).toBe(1);
    expect(contrast("#767676", "#ffffff")).toBeCloseTo(4.54, 2);
    expect(contrast("#777777", "#ffffff")).toBeCloseTo(4.48, 2);
  });

  it("has at least 7 to 1 for words and 3 to 1 for lines and boxes", () => {
    const paper = token("--print-paper");
    // WCAG 2.2, 1.4.6 Contrast (Enhanced) and 1.4.11 Non-text Contrast.
    expect(contrast(token("--print-ink"), paper)).toBeGreaterThanOrEqual(7);
    expect(contrast(token("--print-soft"), paper)).toBeGreaterThanOrEqual(7);
    expect(contrast(token("--print-rule"), paper)).toBeGreaterThanOrEqual(3);
  });

  it("is grey, black and white alone", () => {
    for (const name of ["--print-paper", "--print-ink", "--print-soft", "--print-rule"]) {
      expect(token(name)).toMatch(/^#([0-9a-f]{2})\1\1$/);
    }
  });

  it("replaces every colour of the themes on a sheet", () => {
    const themed = [...tokens.matchAll(/(--[a-z-]+): light-dark/g)].map(([, name]) => name);
    expect(themed.length).toBeGreaterThan(5);
    const sheet = /\.sheet \{([^}]*)\}/.exec(sheetStyle)?.[1] ?? "";
    for (const name of themed) expect(sheet).toContain(`${name}: var(--print-`);
  });
});
