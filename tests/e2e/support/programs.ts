import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "playwright";

export const root = join(import.meta.dirname, "..", "..", "..");
const electronFolder = join(root, "node_modules", "electron");

/** Electron's own program when it has been downloaded, otherwise null. */
export function electronProgram(): string | null {
  const pathFile = join(electronFolder, "path.txt");
  if (!existsSync(pathFile)) return null;
  const program = join(electronFolder, "dist", readFileSync(pathFile, "utf8").trim());
  return existsSync(program) ? program : null;
}

/**
 * The Chromium to use: the one asked for, the system's, or the one that Playwright installed. The same
 * Chromium without any window of its own costs about a tenth less, so that comes first.
 */
export function chromiumProgram(): string {
  const places = [
    process.env.PEBBLECHIME_CHROMIUM,
    "/usr/bin/chromium-headless-shell",
    "/usr/bin/chromium",
    "/usr/bin/chromium-browser",
    "/usr/bin/google-chrome",
    chromium.executablePath(),
  ];
  const found = places.find((place) => place !== undefined && existsSync(place));
  if (found === undefined) {
    throw new Error(
      "No Chromium found. Run `npm test`, which installs one, or set PEBBLECHIME_CHROMIUM.",
    );
  }
  return found;
}

/** A bundled file of the desktop side: of this checkout's build, or of another folder that holds one. */
export function built(file: "main.js" | "loopback.js", folder = root): string {
  const path = join(folder, "dist", "electron", file);
  if (!existsSync(path)) throw new Error(`${path} is not there. Run \`npm run build\` first.`);
  return path;
}
