import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import {
  placeWindow,
  readWindowState,
  writeWindowState,
} from "../../../../electron/shell/window-state.ts";

const laptop = { workArea: { x: 0, y: 25, width: 1366, height: 743 } };
const projector = { workArea: { x: 1366, y: 0, width: 1920, height: 1080 } };
const kept = { x: 1500, y: 100, width: 1200, height: 800, maximized: false };

describe("placeWindow", () => {
  it("puts the window back where it was, also on a second display", () => {
    const place = { x: 1500, y: 100, width: 1200, height: 800 };
    expect(placeWindow(kept, [laptop, projector])).toEqual(place);
  });

  it("centres it on the main display when its display has gone", () => {
    const { x, y, width, height } = placeWindow(kept, [laptop]);
    expect({ width, height }).toEqual({ width: 1200, height: 743 });
    expect(x).toBe(83);
    expect(y).toBe(25);
  });

  it("centres it when only a sliver or no title bar could be grasped", () => {
    const sliver = { ...kept, x: 1366 - 20, y: 100 };
    expect(placeWindow(sliver, [laptop]).x).toBe(83);
    const above = { ...kept, x: 0, y: -300 };
    expect(placeWindow(above, [laptop]).y).toBe(25);
  });

  it("is never smaller than what the screens need, nor larger than the display", () => {
    const tiny = { x: 10, y: 30, width: 5, height: 5, maximized: false };
    expect(placeWindow(tiny, [laptop])).toMatchObject({ width: 900, height: 600 });
    const netbook = { workArea: { x: 0, y: 0, width: 800, height: 480 } };
    expect(placeWindow(null, [netbook])).toEqual({ x: 0, y: 0, width: 800, height: 480 });
  });

  it("has a usual size without any display to measure", () => {
    expect(placeWindow(null, [])).toEqual({ x: 0, y: 0, width: 1280, height: 800 });
  });
});

describe("the kept state", () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), "pebblechime-window-"));
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  it("comes back as it was written, leaving no other file", () => {
    const file = join(folder, "place.json");
    writeWindowState(file, kept);
    writeWindowState(file, { ...kept, maximized: true });
    expect(readWindowState(file)).toEqual({ ...kept, maximized: true });
    expect(readdirSync(folder)).toEqual(["place.json"]);
  });

  it("counts as absent when it is missing, cut off or out of range", () => {
    const file = join(folder, "place.json");
    expect(readWindowState(file)).toBeNull();
    for (const text of [
      '{"x":1',
      "null",
      '{"x":1e9,"y":0,"width":1,"height":1,"maximized":false}',
    ]) {
      writeFileSync(file, text);
      expect(readWindowState(file), text).toBeNull();
    }
  });
});
