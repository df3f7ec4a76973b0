import { type SpawnSyncReturns, spawn, spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { temporaryFolder } from "./support/temporary-folder.ts";

const work = temporaryFolder();
afterAll(() => work.remove());

const support = (name: string) => join(import.meta.dirname, "support", name);

/** Ways to a network of our own in which there is nothing but this machine: for root, and for others. */
const isolations = [
  ["unshare", "--net"],
  ["unshare", "--net", "--user", "--map-root-user"],
];
const inside = ["sh", "-c", 'ip link set lo up && exec "$@"', "sh"];
const isolated = (way: readonly string[], ...run: string[]): [string, string[]] => {
  const [program = "", ...words] = [...way, ...inside, ...run];
  return [program, words];
};
const isolation = isolations.find((way) => spawnSync(...isolated(way, "true")).status === 0);
const where = isolation === undefined ? "refused" : "without routes";

// In a network namespace without routes nothing else can be reached. There and elsewhere the app's process
// notes and refuses whatever leaves this machine, and what its page asks for is noted.
it.each(["desktop", "loopback"])(
  `a whole session needs no network and asks for none (${where}, %s)`,
  async (host) => {
    const run = [process.execPath, support("silent-session.ts"), work.path, host];
    const [program = "", ...rest] = run;
    const session = spawn(
      ...(isolation === undefined ? ([program, rest] as const) : isolated(isolation, ...run)),
      { stdio: ["ignore", "pipe", "pipe"] },
    );
    let [said, complained] = ["", ""];
    session.stdout.setEncoding("utf8").on("data", (text: string) => {
      said += text;
    });
    session.stderr.setEncoding("utf8").on("data", (text: string) => {
      complained += text;
    });
    const code = await new Promise((resolve) => session.on("exit", resolve));
    expect({ code, complained }).toEqual({ code: 0, complained: "" });
    const { row, asked } = JSON.parse(said.trim().split("\n").at(-1) ?? "");
    expect(row).toMatch(/^Ana.*\d%/);
    expect(asked).toEqual([]);
  },
);

it("whatever asks outside is noted and refused, by connection, name, datagram or open port", () => {
  const asked = join(work.path, "asked-all");
  const refusing = `--import=${new URL("support/refuse-network.mjs", import.meta.url).href}`;
  const answer = spawnSync(process.execPath, [refusing, support("asks-outside.mjs")], {
    env: { ...process.env, PEBBLECHIME_ASKED: asked },
    encoding: "utf8",
  });
  expect(outcome(answer)).toEqual({ ways: 16, passed: 0 });
  expect(readFileSync(asked, "utf8").trim().split("\n")).toHaveLength(16);
});

it.skipIf(isolation === undefined)("a network without routes reaches nobody but itself", () => {
  const tries = `require("net").connect(80, "192.0.2.1").on("error", ({ code }) => console.log(JSON.stringify(code)))`;
  const [program, words] = isolated(isolation ?? [], process.execPath, "-e", tries);
  expect(outcome(spawnSync(program, words, { encoding: "utf8" }))).toBe("ENETUNREACH");
});

function outcome({ stdout, stderr }: SpawnSyncReturns<string>): unknown {
  expect(stderr).toBe("");
  return JSON.parse(stdout);
}
