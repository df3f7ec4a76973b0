// Finds a Chromium for the tests, or installs one.
import { existsSync } from "node:fs";
import { join } from "node:path";
import {
  canInstallDebianPackages,
  capture,
  hasProgram,
  installDebianPackages,
  pinnedNodePath,
  root,
  run,
} from "./run.mjs";
import { say } from "./say.mjs";

/** As Debian calls the same Chromium without any window of its own: a tenth less work, and a smaller package. */
const shell = "chromium-headless-shell";
const names = [shell, "chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];

/** @returns the path of a Chromium, or null when none could be had */
export function ensureChromium() {
  const found = findChromium();
  if (found !== null) return found;
  if (canInstallDebianPackages()) {
    say("Installing Chromium for the tests, with apt.");
    // Older distributions have no package of the shell alone.
    for (const name of [shell, "chromium"]) {
      installDebianPackages([name]);
      const installed = findChromium();
      if (installed !== null) return installed;
    }
  }
  say("Fetching Playwright's Chromium for the tests, about 170 MB.");
  run(pinnedNodePath(), [
    join(root, "node_modules", "playwright", "cli.js"),
    "install",
    "chromium",
  ]);
  return findChromium();
}

/** The test of the chimes' loudness measures with ffmpeg; without it that one is skipped. */
export function ensureLoudnessMeter() {
  if (hasProgram("ffmpeg")) return;
  if (!canInstallDebianPackages()) {
    say("ffmpeg is not installed, so the loudness of the chimes is not measured.");
    return;
  }
  say("Installing ffmpeg, which measures the loudness of the chimes, with apt.");
  installDebianPackages(["ffmpeg"]);
}

function findChromium() {
  const named = process.env.PEBBLECHIME_CHROMIUM;
  if (named && existsSync(named)) return named;
  const name = names.find(hasProgram);
  if (name !== undefined) return capture("which", [name]).text.trim().split("\n")[0] ?? null;
  return playwrightsOwn();
}

function playwrightsOwn() {
  const ask = 'console.log(require("playwright").chromium.executablePath())';
  const { code, text } = capture(pinnedNodePath(), ["-e", ask]);
  const path = text.trim();
  return code === 0 && existsSync(path) ? path : null;
}
