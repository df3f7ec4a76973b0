import { isAbsolute, join } from "node:path";
import { expect, it } from "vitest";
import { dataFolder } from "../../../../electron/host/data-folder.ts";

it("keeps data in a folder of the app's own name, in a full path", () => {
  expect(dataFolder(null)).toContain("Pebblechime");
  expect(isAbsolute(dataFolder(null))).toBe(true);
});

it("takes a folder asked for from the working directory", () => {
  expect(dataFolder("class 3b")).toBe(join(process.cwd(), "class 3b"));
  expect(dataFolder("/data/class")).toBe("/data/class");
});
