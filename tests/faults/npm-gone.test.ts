import { spawn } from "node:child_process";
import { once } from "node:events";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { expect, test } from "vitest";

const root = join(import.meta.dirname, "..", "..");
const run = join(root, "scripts", "bootstrap", "run.mjs");

/** Whether a process is there. */
function lives(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}

// As under npm: npm is the parent of the script, the script of the app.
test.skipIf(process.platform === "win32")(
  "a signal to npm alone ends the script and the app too",
  async () => {
    const app = `process.stdout.write("app " + process.pid + " "); setInterval(() => {}, 1000);`;
    const script = `
    const { live } = await import(${JSON.stringify(run)});
    process.stdout.write("script " + process.pid + " ");
    process.exitCode = (await live(process.execPath, ["-e", ${JSON.stringify(app)}])).code;`;
    const npm = `
    const { spawn } = require("node:child_process");
    spawn(process.execPath, ["--input-type=module", "-e", ${JSON.stringify(script)}], { stdio: "inherit" });
    setInterval(() => {}, 1000);`;
    const parent = spawn(process.execPath, ["-e", npm], {
      env: { ...process.env, npm_lifecycle_event: "start" },
      stdio: ["ignore", "pipe", "inherit"],
    });
    let printed = "";
    parent.stdout.setEncoding("utf8").on("data", (text: string) => {
      printed += text;
    });
    const pidOf = (who: string): number => Number(new RegExp(`${who} (\\d+) `).exec(printed)?.[1]);
    while (!(pidOf("app") > 0 && pidOf("script") > 0)) await wait(25);
    const [one, other] = [pidOf("script"), pidOf("app")];
    parent.kill("SIGTERM");
    await once(parent, "exit");
    for (let tries = 0; tries < 200 && (lives(one) || lives(other)); tries += 1) await wait(25);
    expect([lives(one), lives(other)]).toEqual([false, false]);
  },
  20_000,
);
