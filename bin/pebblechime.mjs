#!/usr/bin/env node
// The installed package: opens the app in the browser, or runs its command line.
//   pebblechime [--data FOLDER] [--sample]     pebblechime cli COMMAND ...
import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** The Node that the database's binary and the app are made for. */
const wanted = 24;

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const program = nodeProgram();

if (program === null) {
  process.stderr.write(
    `Pebblechime needs Node ${wanted}, which did not come with it, and this is Node ${process.versions.node}: install Node ${wanted} from nodejs.org and start again.\n`,
  );
  process.exitCode = 1;
} else {
  const [first, ...rest] = process.argv.slice(2);
  const isCommand = first === "cli";
  const file = join(root, "dist", "electron", isCommand ? "cli.js" : "loopback.js");
  const words = isCommand ? rest : process.argv.slice(2);
  const child = spawn(program, [file, ...words], { stdio: "inherit" });
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"])
    process.on(signal, () => child.kill(signal));
  child.on("error", (error) => {
    process.stderr.write(`Pebblechime could not start: ${error.message}.\n`);
    process.exitCode = 1;
  });
  child.on("exit", (code) => {
    process.exitCode = code ?? 1;
  });
}

/** The Node that came with the package, this one when it is new enough, or null. */
function nodeProgram() {
  try {
    const folder = dirname(createRequire(import.meta.url).resolve("node/package.json"));
    const path = join(folder, "bin", process.platform === "win32" ? "node.exe" : "node");
    if (existsSync(path)) return path;
  } catch {
    // The package is not there at all.
  }
  return Number(process.versions.node.split(".")[0]) >= wanted ? process.execPath : null;
}
