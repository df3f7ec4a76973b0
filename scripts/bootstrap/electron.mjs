// Finds Electron's program, or fetches it once: its package comes without.
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { capture, pinnedNodePath, root } from "./run.mjs";
import { say } from "./say.mjs";

const folder = join(root, "node_modules", "electron");
const failure = join(root, "node_modules", ".cache", "pebblechime", "electron-failed");

/** A slow line needs minutes; one that is blocked without saying so would take forever. */
const fetchLimitMs = 180_000;
/** After a failure the next try is a day later, so that a machine without internet does not wait each time. */
const againAfterMs = 24 * 60 * 60 * 1_000;

/**
 * @returns `{ path }` of Electron's program, or `{ reason }` why there is none, in words that follow "because"
 */
export function findElectron() {
  const why = whyNoWindow();
  if (why !== null) return { reason: why };
  const path = installedPath();
  if (path !== null) return { path };
  if (failedLately()) return { reason: "Electron could not be fetched lately" };
  return fetchElectron();
}

function whyNoWindow() {
  if (process.platform !== "linux") return null;
  const { DISPLAY, WAYLAND_DISPLAY } = process.env;
  if (!DISPLAY && !WAYLAND_DISPLAY) return "this machine has no screen";
  // Chromium's sandbox refuses the superuser, and switching the sandbox off is no way out.
  return process.getuid?.() === 0 ? "Electron does not run as root" : null;
}

function installedPath() {
  try {
    const path = join(folder, "dist", readFileSync(join(folder, "path.txt"), "utf8"));
    return existsSync(path) ? path : null;
  } catch {
    return null;
  }
}

function fetchElectron() {
  say("Fetching Electron, about 120 MB. This happens once.");
  capture(pinnedNodePath(), [join(folder, "install.js")], { timeout: fetchLimitMs });
  const path = installedPath();
  if (path !== null) {
    rmSync(failure, { force: true });
    return { path };
  }
  rememberFailure();
  return { reason: "Electron could not be fetched" };
}

function rememberFailure() {
  try {
    mkdirSync(dirname(failure), { recursive: true });
    writeFileSync(failure, `${version()} ${Date.now()}`);
  } catch {
    // A folder that cannot be written only means that the next start tries again.
  }
}

function failedLately() {
  try {
    const [failed, at] = readFileSync(failure, "utf8").split(" ");
    return failed === version() && Date.now() - Number(at) < againAfterMs;
  } catch {
    return false;
  }
}

function version() {
  return JSON.parse(readFileSync(join(folder, "package.json"), "utf8")).version;
}
