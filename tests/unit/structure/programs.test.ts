import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { root } from "./imports.ts";

// On Windows both are scripts that only a shell can run.
it("no test starts npm by its name, or what npm lays into .bin", () => {
  const files = readdirSync(join(root, "tests"), { recursive: true, encoding: "utf8" });
  const starters = files
    .filter((name) => name.endsWith(".ts"))
    .filter((name) => {
      const text = readFileSync(join(root, "tests", name), "utf8");
      return /(spawn|exec|fork)\w*\(\s*"np[mx]"/.test(text) || /"[.]bin"/.test(text);
    });
  expect(starters).toEqual([]);
});
