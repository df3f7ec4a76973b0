// Runs programs: npm, the pinned Node and what is installed with it.
import { spawn, spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { stop } from "./say.mjs";

export const root = fileURLToPath(new URL("../..", import.meta.url));
const windows = process.platform === "win32";

/** The oldest Node that these scripts themselves run on; the app brings its own. */
const oldestNode = 18;
const pinnedNode = 24;

const major = Number(process.versions.node.split(".")[0]);

export function requireNode() {
  if (major >= oldestNode) return;
  stop(
    `Node ${process.versions.node} is too old. Install Node ${oldestNode} or newer from nodejs.org.`,
  );
}

/** The Node 24 that is installed with the packages, so that everybody's scripts run on the same one. */
export function pinnedNodePath() {
  const path = join(root, "node_modules", "node", "bin", windows ? "node.exe" : "node");
  if (existsSync(path)) return path;
  if (major >= pinnedNode) return process.execPath;
  return stop(
    `The app's own Node is not installed. Delete the folder node_modules and start again, or install Node ${pinnedNode}.`,
  );
}

/** Runs a program to its end, showing what it prints. @returns its exit code; 1 when it did not run */
export function run(program, args, options = {}) {
  const { status } = spawnSync(program, args, { cwd: root, stdio: "inherit", ...options });
  return status ?? 1;
}

/** The same, keeping what it prints. */
export function capture(program, args, options = {}) {
  const { status, stdout, stderr } = spawnSync(program, args, {
    cwd: root,
    encoding: "utf8",
    maxBuffer: 64 * 1024 * 1024,
    ...options,
  });
  return { code: status ?? 1, text: `${stdout ?? ""}${stderr ?? ""}` };
}

/** The same, beside other work. */
export function captureAside(program, args, options = {}) {
  const child = spawn(program, args, { cwd: root, stdio: ["ignore", "pipe", "pipe"], ...options });
  const printed = [];
  child.stdout.on("data", (chunk) => printed.push(chunk));
  child.stderr.on("data", (chunk) => printed.push(chunk));
  return new Promise((resolve) => {
    const end = (code) => resolve({ code, text: Buffer.concat(printed).toString("utf8") });
    child.on("error", () => end(1));
    child.on("close", (code) => end(code ?? 1));
  });
}

/**
 * Runs npm with the Node that it came with, never with the app's own: installing replaces that one.
 */
export function npm(args) {
  const { npm_execpath: cli, npm_node_execpath: nodeOfNpm } = process.env;
  if (cli?.endsWith("npm-cli.js") && nodeOfNpm && !isOurs(nodeOfNpm)) {
    return run(nodeOfNpm, [cli, ...args]);
  }
  return run(windows ? "npm.cmd" : "npm", args, { shell: windows });
}

/** Windows cannot replace a program that is running. */
export function cannotReplacePackages() {
  return windows && isOurs(process.execPath);
}

function isOurs(path) {
  return path.startsWith(join(root, "node_modules"));
}

/** Whether a program of this name is there to be run. */
export function hasProgram(name) {
  return capture(windows ? "where" : "which", [name]).code === 0;
}

const parentLookMs = 500;
const parentAtStart = process.ppid;

/** npm passes on what the terminal sends, but a signal to npm alone ends npm and leaves us behind. */
function isOrphaned() {
  return process.env.npm_lifecycle_event !== undefined && process.ppid !== parentAtStart;
}

/**
 * Runs a program for as long as it lives: it gets our signals, and it goes when we go, because it holds
 * the other end of a channel that closes with this process.
 * @returns its exit code, and whether it died without having been told to
 */
export function live(program, args, { channel = true, env = {} } = {}) {
  const stdio = channel ? ["inherit", "inherit", "inherit", "ipc"] : "inherit";
  const child = spawn(program, args, { cwd: root, stdio, env: { ...process.env, ...env } });
  let told = false;
  const tell = (signal) => {
    told = true;
    child.kill(signal);
  };
  const signals = ["SIGINT", "SIGTERM", "SIGHUP"];
  for (const signal of signals) process.on(signal, tell);
  const parent = setInterval(() => {
    if (isOrphaned()) tell("SIGTERM");
  }, parentLookMs);
  return new Promise((resolve) => {
    const end = (code, died) => {
      clearInterval(parent);
      for (const signal of signals) process.off(signal, tell);
      resolve({ code, died: died && !told });
    };
    child.on("error", () => end(1, true));
    // Codes from 126 on are the system's: not found, not allowed, libraries missing.
    child.on("exit", (code) => end(code ?? 1, code === null || code >= 126));
  });
}

/** Whether this is Debian or a relative of it, with the right to install its packages. */
export function canInstallDebianPackages() {
  return process.getuid?.() === 0 && existsSync("/etc/debian_version") && hasProgram("apt-get");
}

export function installDebianPackages(names) {
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  const quiet = ["-qq", "-o", "Dpkg::Use-Pty=0"];
  const install = () =>
    capture("apt-get", ["install", "-y", "--no-install-recommends", ...quiet, ...names], { env });
  if (capture("apt-get", ["update", ...quiet], { env }).code !== 0) return false;
  return install().code === 0;
}
