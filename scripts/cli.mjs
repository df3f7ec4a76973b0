// npm run -s cli: the command line, from nothing. Standard output holds the command's answer alone.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { pinnedNodePath, run } from "./bootstrap/run.mjs";

const prepare = fileURLToPath(new URL("bootstrap/prepare.mjs", import.meta.url));
const toError = ["ignore", process.stderr, process.stderr];
const { status } = spawnSync(process.execPath, [prepare], { stdio: toError });
process.exitCode =
  status === 0
    ? run(pinnedNodePath(), ["dist/electron/cli.js", ...process.argv.slice(2)])
    : (status ?? 1);
