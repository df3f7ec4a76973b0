import { readFileSync, renameSync, writeFileSync } from "node:fs";
import type { BrowserWindow, Display, Rectangle } from "electron";
import { z } from "zod";

const pixels = z.int().min(-100_000).max(100_000);
const windowStateSchema = z.object({
  x: pixels,
  y: pixels,
  width: z.int().min(1).max(100_000),
  height: z.int().min(1).max(100_000),
  maximized: z.boolean(),
});
/** Where a window was, in device-independent pixels of the whole desktop. */
export type WindowState = z.infer<typeof windowStateSchema>;

export const smallestWindow = { width: 900, height: 600 };
const usualWindow = { width: 1280, height: 800 };
/** So much of a window must lie on a display for a teacher to get hold of it. */
const graspable = 80;
const settleMs = 500;

/** The kept state, or null when there is none or it cannot be read: a lost window position is no error. */
export function readWindowState(file: string): WindowState | null {
  try {
    return windowStateSchema.parse(JSON.parse(readFileSync(file, "utf8")));
  } catch {
    return null;
  }
}

/** Written beside and renamed over, so that a crash leaves the old file or the new one. */
export function writeWindowState(file: string, state: WindowState): void {
  const beside = `${file}.new`;
  writeFileSync(beside, JSON.stringify(state));
  renameSync(beside, file);
}

/**
 * Where to open the window: where it was if that still lies on a display, otherwise in the middle of the
 * first display; never larger than the display it lies on.
 * @param displays the work areas that exist now, the main one first
 */
export function placeWindow(
  kept: WindowState | null,
  displays: readonly Pick<Display, "workArea">[],
): Rectangle {
  const home = displays.find(({ workArea }) => kept !== null && overlaps(kept, workArea));
  const area = (home ?? displays[0])?.workArea ?? { x: 0, y: 0, ...usualWindow };
  const width = Math.min(
    area.width,
    Math.max(smallestWindow.width, kept?.width ?? usualWindow.width),
  );
  const height = Math.min(
    area.height,
    Math.max(smallestWindow.height, kept?.height ?? usualWindow.height),
  );
  if (kept !== null && home !== undefined) return { x: kept.x, y: kept.y, width, height };
  return {
    x: area.x + Math.round((area.width - width) / 2),
    y: area.y + Math.round((area.height - height) / 2),
    width,
    height,
  };
}

/** Whether the window's title bar can be seen and grasped on this display. */
function overlaps(window: Rectangle, area: Rectangle): boolean {
  const across =
    Math.min(window.x + window.width, area.x + area.width) - Math.max(window.x, area.x);
  return across >= graspable && window.y >= area.y && window.y <= area.y + area.height - graspable;
}

/** Writes the window's place down whenever it has settled, and once more when it closes. */
export function keepWindowState(window: BrowserWindow, file: string): void {
  let timer: NodeJS.Timeout | undefined;
  const write = () => {
    clearTimeout(timer);
    try {
      writeWindowState(file, { ...window.getNormalBounds(), maximized: window.isMaximized() });
    } catch (error) {
      console.error("The window's place could not be kept:", error);
    }
  };
  const settle = () => {
    clearTimeout(timer);
    timer = setTimeout(write, settleMs);
  };
  window.on("resize", settle);
  window.on("move", settle);
  window.on("close", write);
  window.on("closed", () => clearTimeout(timer));
}
