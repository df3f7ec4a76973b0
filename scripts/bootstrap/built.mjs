// Builds when anything that goes into the build has changed since the last one.
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pinnedNodePath, root, run } from "./run.mjs";
import { say } from "./say.mjs";

const inputs = [
  "src",
  "shared",
  "electron",
  "assets",
  "vite.config.ts",
  "package-lock.json",
  "scripts/build.mjs",
];
const stamp = join(root, "dist", "built-from");

/** @returns whether there is an up-to-date build */
export function ensureBuilt({ quiet = false } = {}) {
  const wanted = stateOfInputs();
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === wanted) return true;
  if (!quiet) say("Building the app.");
  if (run(pinnedNodePath(), ["scripts/build.mjs"]) !== 0) return false;
  writeFileSync(stamp, wanted);
  return true;
}

/** Names, sizes and times of all inputs, as one hash: a few milliseconds where reading them takes longer. */
function stateOfInputs() {
  const hash = createHash("sha256");
  const visit = (path) => {
    const { mtimeMs, size, isDirectory } = described(path);
    if (!isDirectory) hash.update(`${path}\n${size}\n${mtimeMs}\n`);
    else for (const name of readdirSync(join(root, path)).sort()) visit(`${path}/${name}`);
  };
  for (const path of inputs) if (existsSync(join(root, path))) visit(path);
  return hash.digest("hex");
}

function described(path) {
  const stats = statSync(join(root, path));
  return { mtimeMs: stats.mtimeMs, size: stats.size, isDirectory: stats.isDirectory() };
}
