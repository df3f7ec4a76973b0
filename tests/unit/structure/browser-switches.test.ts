import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { expect, it } from "vitest";
import { withoutUnseenPartsInPlaywright } from "../../support/browser-switches.ts";

// Of two --disable-features Chromium heeds the last, so the tests' own must repeat all of Playwright's.
it("the browser that Playwright starts leaves out whatever Playwright itself leaves out", () => {
  const playwright = createRequire(import.meta.url).resolve("playwright/package.json");
  const core = createRequire(playwright).resolve("playwright-core/package.json");
  const bundle = readFileSync(join(dirname(core), "lib", "coreBundle.js"), "utf8");
  const list = /\bdisabledFeatures = \[([^\]]*)\]/.exec(bundle)?.[1] ?? "";
  // Names that begin with ms are another browser's.
  const names = [...list.matchAll(/^\s*"(?!ms)(\w+)",?$/gm)].map(([, name = ""]) => name);
  expect(names).toContain("PaintHolding");
  expect(withoutUnseenPartsInPlaywright.split(/[=,]/)).toEqual(expect.arrayContaining(names));
});
