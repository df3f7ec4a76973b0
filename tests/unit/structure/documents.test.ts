import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, it } from "vitest";
import { root } from "./imports.ts";

const documents = [
  ...readdirSync(root).filter((name) => name.endsWith(".md")),
  ...readdirSync(join(root, "docs"))
    .filter((name) => name.endsWith(".md"))
    .map((name) => `docs/${name}`),
];

it.each(documents)("%s links to what is there", (name) => {
  const text = readFileSync(join(root, name), "utf8");
  const links = [...text.matchAll(/\]\(([^)#\s]+)[^)]*\)/g)].map(([, to = ""]) => to);
  const missing = links.filter(
    (to) => !/^\w+:/.test(to) && !existsSync(join(root, dirname(name), to)),
  );
  expect(missing).toEqual([]);
});

it("the README is short", () => {
  const lines = readFileSync(join(root, "README.md"), "utf8").split("\n").length;
  expect(lines).toBeLessThan(100);
});
