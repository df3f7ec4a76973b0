// Installs the packages that package-lock.json names, when they are missing or others are there.
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { cannotReplacePackages, npm, root } from "./run.mjs";
import { say, stop } from "./say.mjs";

/** npm writes this at the end of an install: what is really there. */
const installedList = join(root, "node_modules", ".package-lock.json");

export function ensureDependencies() {
  if (areInstalled()) return;
  say("Installing what Pebblechime needs. This happens once and takes a few minutes.");
  // "ci" begins by deleting everything, "install" changes only what differs.
  const way = cannotReplacePackages() ? "install" : "ci";
  if (npm([way, "--loglevel=error", "--no-audit", "--no-fund"]) !== 0 || !areInstalled()) {
    stop(
      "The packages could not be installed. Check the connection to the internet and start again.",
    );
  }
}

/** Whether exactly the locked packages are there; those for other systems may be missing. */
function areInstalled() {
  const locked = packagesOf(join(root, "package-lock.json"));
  const installed = packagesOf(installedList);
  if (locked === null || installed === null) return false;
  const isThere = ([path, { version, optional }]) =>
    path === "" || installed[path]?.version === version || (optional && !(path in installed));
  const isWanted = ([path, { version }]) => locked[path]?.version === version;
  return Object.entries(locked).every(isThere) && Object.entries(installed).every(isWanted);
}

function packagesOf(path) {
  if (!existsSync(path)) return null;
  try {
    return JSON.parse(readFileSync(path, "utf8")).packages ?? null;
  } catch {
    return null;
  }
}
