import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { CueMeans } from "../../../../../shared/api/sessions.ts";
import { addSign } from "../../../../../src/live/giving/cue-in-sight.ts";
import { offerMeans } from "../../../../../src/live/giving/cue-means.ts";

beforeEach(() => {
  vi.stubGlobal("document", {
    visibilityState: "visible",
    addEventListener() {},
    removeEventListener() {},
  });
});
afterEach(() => vi.unstubAllGlobals());

test("a sign that comes while the window is joining is told once more when it has joined", async () => {
  const told: CueMeans[] = [];
  const means = offerMeans(
    () => false,
    true,
    (can) => told.push(can),
  );
  const removers: (() => void)[] = [];
  const joined = await means.join(async (can) => {
    expect(can).toBe("none");
    // The board's own code arrives just now; the desktop side does not know this window yet.
    removers.push(addSign());
    return "calls";
  });
  expect(joined).toBe("calls");
  expect(told).toEqual(["sight", "sight"]);
  for (const remove of removers) remove();
  expect(told).toEqual(["sight", "sight", "none"]);
  means.stop();
});

test("a window that joins by what it still can do says nothing twice", async () => {
  const told: CueMeans[] = [];
  const means = offerMeans(
    () => true,
    true,
    (can) => told.push(can),
  );
  expect(await means.join(async (can) => can)).toBe("sound");
  expect(told).toEqual([]);
  means.stop();
});
