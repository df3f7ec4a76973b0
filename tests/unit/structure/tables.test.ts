import { globSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";

// WCAG 2.2, success criterion 1.3.1: a table has a name and says in each row what the row is about. The
// sheets that are typed in are grids, whose boxes carry their student's name.

const files = globSync("src/**/*.tsx");
const tables = files.flatMap((file) => {
  const text = readFileSync(file, "utf8");
  const found = [...text.matchAll(/<table\b[^>]*/g)].map(([head]) => ({ file, head, text }));
  return found.filter(({ head }) => !head.includes('role="grid"'));
});

it("finds the tables", () => {
  expect(tables.length).toBeGreaterThan(20);
});

it.each(tables)("the table of $file has a name and row headers", ({ head, text }) => {
  expect(head.includes("aria-label") || text.includes("<caption")).toBe(true);
  expect(text).toContain('scope="row"');
});
