import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { procedures } from "../../../shared/api/procedures.ts";
import { filesUnder, root } from "./imports.ts";

it("every procedure is asked by the page: what only a test calls is dead", () => {
  const page = filesUnder("src")
    .map((file) => readFileSync(join(root, file), "utf8"))
    .join("\n");
  const named = Object.entries(procedures).flatMap(([subject, those]) =>
    Object.keys(those).map((name) => ({ subject, name })),
  );
  expect(named.length).toBeGreaterThan(100);
  const unasked = named.filter(
    ({ subject, name }) =>
      !new RegExp(`\\b${subject}\\.${name}\\b|"${subject}",\\s*"${name}"`).test(page),
  );
  expect(unasked).toEqual([]);
});
