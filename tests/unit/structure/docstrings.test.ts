import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { filesUnder, root } from "./imports.ts";

it("says what a function throws by one word everywhere", () => {
  const files = ["shared", "src", "electron"].flatMap(filesUnder);
  const others = files.filter((file) =>
    /^\s*(\/\*)?\* .*\bErrors: [A-Z]/m.test(readFileSync(join(root, file), "utf8")),
  );
  expect(files.length).toBeGreaterThan(500);
  expect(others).toEqual([]);
});
