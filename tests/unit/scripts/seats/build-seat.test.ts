import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Node, parse } from "acorn";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildSeat } from "../../../../scripts/seats/build-seat.ts";
import { plainTokens } from "../../../../scripts/seats/plain-tokens.ts";
import { seatEdition } from "../../../../scripts/seats/target.ts";
import { root } from "../../structure/imports.ts";

let folder = "";
let script = "";
let style = "";
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "pebblechime-page-"));
  await buildSeat(root, folder);
  script = readFileSync(join(folder, "seat.js"), "utf8");
  style = readFileSync(join(folder, "seat.css"), "utf8");
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A parsed text and all that is in it. */
function nodesOf(node: unknown): Node[] {
  if (typeof node !== "object" || node === null) return [];
  const inside = Object.values(node).flatMap(nodesOf);
  return "type" in node ? [node as Node, ...inside] : inside;
}

describe("the page for students' devices, as built", () => {
  it("is three small files", () => {
    expect(readdirSync(folder).sort()).toEqual(["index.html", "seat.css", "seat.js"]);
    expect(script.length + style.length).toBeLessThan(60_000);
  });

  it("has no syntax above the edition that its oldest browsers know, as a parser of that edition says", () => {
    expect(() => parse(script, { ecmaVersion: seatEdition, sourceType: "script" })).not.toThrow();
    // The parser does refuse what came later.
    expect(() => parse("a?.b", { ecmaVersion: seatEdition })).toThrow();
    expect(() => parse("({ ...a })", { ecmaVersion: seatEdition })).toThrow();
  });

  it("takes no rest of an array apart, which Safari 9 to 13.1 does wrong", () => {
    // Source: the project compat-table, pull request 2008, whose case is the one here.
    const arrayRests = (text: string) =>
      nodesOf(parse(text, { ecmaVersion: seatEdition })).filter(
        (node) =>
          node.type === "ArrayPattern" &&
          (node as Node & { elements: (Node | null)[] }).elements.some(
            (each) => each?.type === "RestElement",
          ),
      );
    expect(arrayRests("var [a, ...b] = [0, void 0];")).toHaveLength(1);
    expect(arrayRests(script)).toEqual([]);
  });

  it("calls nothing that came after them, or that no browser has on a line without encryption", () => {
    // Editions from ECMA-262's lists of additions (2019 to 2024); secure contexts from the review of browsers.
    const later =
      /\.(at|replaceAll|flat|flatMap|fromEntries|matchAll|hasOwn|findLast|toSorted|toReversed|withResolvers|groupBy|allSettled|any|replaceChildren|append|prepend|closest)\(|structuredClone|globalThis|queueMicrotask|\bBigInt\b|randomUUID|\.subtle\b|serviceWorker|clipboard|mediaDevices|getUserMedia|geolocation/;
    expect(later.exec(script)?.[0]).toBeUndefined();
    // One is asked for where it is there, and only there.
    expect(script.match(/wakeLock/g)).toHaveLength(1);
    expect(script).toMatch(/wakeLock:\s*(\w+)\}\s*=\s*navigator[\s\S]{0,200}\1\s*===\s*void 0/);
  });

  it("styles itself with what they know", () => {
    expect(style).not.toMatch(
      /light-dark\(|:has\(|:is\(|\binset:|dvh|svh|color-mix|clamp\(|@layer|@container|aspect-ratio/,
    );
    // A gap between the items of a row came to Safari with 14.1; grids had theirs before.
    for (const rule of style.match(/[^{}]+\{[^{}]*\}/g) ?? []) {
      if (/display:\s*flex/.test(rule)) expect(rule).not.toMatch(/[^-]gap:/);
    }
  });

  it("lightens its band slowly, in no saturated red, light or dark", () => {
    const [, rules = ""] = /\.band\{([^}]*)\}/.exec(style) ?? [];
    const [, length = "", unit] = /transition:opacity ([\d.]+)(m?s)/.exec(rules) ?? [];
    expect(Number(length) * (unit === "s" ? 1_000 : 1)).toBeGreaterThanOrEqual(400);
    const bands = (style.match(/\.band(?:-on)?\{[^}]*\}/g) ?? []).join();
    const names = [...new Set([...bands.matchAll(/var\((--[\w-]+)\)/g)].map(([, name]) => name))];
    expect(names).toEqual(["--lake-wash", "--clay-wash", "--clay"]);
    // WCAG 2.2, general flash and red flash thresholds: a state with R / (R + G + B) of 0.8 or more is a
    // saturated red; the values are linear, as in its relative luminance.
    const linear = (byte: number) =>
      byte / 255 <= 0.04045 ? byte / 255 / 12.92 : ((byte / 255 + 0.055) / 1.055) ** 2.4;
    const redness = (hex: string) => {
      const [red = 0, green = 0, blue = 0] = [0, 2, 4].map((at) =>
        linear(Number.parseInt(hex.slice(at, at + 2), 16)),
      );
      return red / (red + green + blue);
    };
    expect(redness("c00000")).toBe(1);
    // The app's own themes are not on this page: it follows the device, light or dark.
    const page = style.replace(/:root\[data-theme[^{]*\{[^}]*\}/g, "");
    const colours = names.flatMap((name) => [
      ...page.matchAll(new RegExp(`${name}:\\s*#([0-9a-f]{6})[;}]`, "g")),
    ]);
    expect(colours).toHaveLength(6);
    for (const [whole, hex = ""] of colours) expect(redness(hex), whole).toBeLessThan(0.8);
  });

  it("keeps the app's colours, once for light and once for dark", () => {
    const css =
      ":root { color-scheme: light dark; --ink: light-dark(#111111, #eeeeee); --gap: 1rem; }";
    const plain = plainTokens(css);
    expect(plain).toContain("--ink: #111111;");
    expect(plain).toMatch(/prefers-color-scheme: dark\) \{\s*:root \{\s*--ink: #eeeeee;/);
    expect(plain).toContain("--gap: 1rem;");
  });
});
