import { spawn, spawnSync } from "node:child_process";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { temporaryFolder } from "./support/temporary-folder.ts";

const work = temporaryFolder();
afterAll(() => work.remove());

/** Whether this system lets us make a network of our own, in which there is nothing but this machine. */
const canIsolate = spawnSync("unshare", ["--net", "sh", "-c", "ip link set lo up"]).status === 0;

// In a network namespace without routes nothing else can be reached; elsewhere the app's process notes
// and refuses every connection that leaves this machine, and the page's requests are noted in both.
it(`a whole session needs no network and asks for none (${canIsolate ? "without routes" : "refused"})`, async () => {
  const child = join(import.meta.dirname, "support", "silent-session.ts");
  const run = [process.execPath, child, work.path];
  const [program = "", ...words] = canIsolate
    ? ["unshare", "--net", "sh", "-c", 'ip link set lo up && exec "$@"', "sh", ...run]
    : run;
  const session = spawn(program, words, { stdio: ["ignore", "pipe", "pipe"] });
  let [said, complained] = ["", ""];
  session.stdout.setEncoding("utf8").on("data", (text: string) => {
    said += text;
  });
  session.stderr.setEncoding("utf8").on("data", (text: string) => {
    complained += text;
  });
  const code = await new Promise((resolve) => session.on("exit", resolve));
  expect({ code, complained }).toEqual({ code: 0, complained: "" });
  const { row, asked } = JSON.parse(said);
  expect(row).toMatch(/^Ana.*\d%/);
  expect(asked).toEqual([]);
});
