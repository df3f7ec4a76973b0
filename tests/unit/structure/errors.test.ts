import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { filesUnder, root } from "./imports.ts";

/** The text in which a RangeError is made, up to the end of its sentence. */
const made = /new RangeError\(\s*(["`])(?<text>[\s\S]*?)\1,?\s*\)/g;

it("a wrong argument is told by subject, rule and value got", () => {
  const texts = ["shared", "electron", "src"].flatMap(filesUnder).flatMap((file) => {
    const source = readFileSync(join(root, file), "utf8");
    return [...source.matchAll(made)].map(({ groups }) => `${file}: ${groups?.text}`);
  });
  expect(texts.length).toBeGreaterThan(60);
  // A sentence may follow that says what to do instead.
  expect(texts.filter((text) => !/ must .*; got .*\.$/s.test(text))).toEqual([]);
});
