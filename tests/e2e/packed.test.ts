import { spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { cpSync, existsSync, mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { extractAll, listPackage } from "@electron/asar";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { binariesFor, notAllowed } from "../../scripts/packaging/allow-list.ts";
import { runningSystem } from "../../scripts/packaging/builder-files.ts";
import { budgetBytes, pack } from "../../scripts/packaging/pack.ts";
import { launchApp } from "./support/launch.ts";
import { npm } from "./support/npm.ts";
import { root } from "./support/programs.ts";
import { answerOnTile, button, makeGroup, showTiles } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const work = temporaryFolder();
afterAll(() => work.remove());

describe("the app as the installers pack it", () => {
  const unpacked = join(work.path, "app");
  const [platform, architecture] = runningSystem();
  let names: string[] = [];

  beforeAll(async () => {
    const folder = join(work.path, "pack");
    mkdirSync(folder);
    const { archive } = await pack(root, folder, platform, architecture);
    names = listPackage(archive, { isPack: false }).map((name) =>
      name.replaceAll("\\", "/").slice(1),
    );
    extractAll(archive, unpacked);
    // What lies beside the archive is what the system loads; the archive names it all the same.
    expect(existsSync(join(`${archive}.unpacked`, "node_modules/libflacjs/dist/libflac.js"))).toBe(
      true,
    );
    cpSync(`${archive}.unpacked`, unpacked, { recursive: true });
  });

  it("holds what the allow-list names, and nothing else", () => {
    const files = names.filter((name) => /\.\w+$|(^|\/)LICENSE$/.test(name));
    expect(notAllowed(files, platform, architecture)).toEqual([]);
    expect(files.length).toBeGreaterThan(100);
    expect(files.filter((name) => /\.(map|tsx?)$|standin\/|(^|\/)tests?\//i.test(name))).toEqual(
      [],
    );
    expect(files.filter((name) => name.endsWith(".node"))).toEqual(
      binariesFor(platform, architecture),
    );
  });

  it("packs for each system its own list, within the budget, with the database's one binary", async () => {
    for (const [system, processor] of [
      ["win", "x64"],
      ["win", "arm64"],
      ["mac", "arm64"],
      ["linux", "x64"],
      ["linux", "arm64"],
    ] as const) {
      const folder = join(work.path, `${system}-${processor}`);
      mkdirSync(folder);
      const { files, bytes } = await pack(root, folder, system, processor);
      expect(notAllowed(files, system, processor)).toEqual([]);
      expect(bytes).toBeLessThan(budgetBytes);
      const binaries = files.filter((name) => name.endsWith(".node"));
      expect(binaries).toEqual(binariesFor(system, processor));
    }
  });

  it("runs a whole journey from the packed main and preload, in the stand-in", async () => {
    const data = join(work.path, "data");
    const app = await launchApp({ dataFolder: data, args: ["--speed", "60"], appFolder: unpacked });
    const page = await app.page();
    await makeGroup(page, "Packed", ["Ana", "Ben"]);
    await button(page, "Start a session").click();
    const hear = button(page, "Hear the chime");
    await hear.waitFor();
    await hear.click();
    await button(page, "Start the session").click();
    await showTiles(page);
    await answerOnTile(page, "Ana", "yes");
    await app.kill();
    expect(readdirSync(data)).toContain("pebblechime.sqlite");
  });
});

describe("the package for people with Node alone", () => {
  const home = join(work.path, "home");
  // Run by Node: what npm lays into .bin is a script of its own on Windows.
  const bin = join(home, "node_modules", "pebblechime", "bin", "pebblechime.mjs");

  beforeAll(() => {
    mkdirSync(home);
    // The build is there already; packing it again would take its place under running tests.
    const packed = npm(
      ["pack", "--silent", "--ignore-scripts", "--pack-destination", work.path],
      root,
    ).trim();
    const manifest = { private: true, allowScripts: { node: true } };
    writeFileSync(join(home, "package.json"), JSON.stringify(manifest));
    const file = join(work.path, packed.split("\n").at(-1) ?? "");
    npm(["install", file, "--omit=dev", "--no-audit", "--no-fund", "--loglevel=error"], home);
  }, 300_000);

  it("brings little along, and no tool", () => {
    const installed = readdirSync(join(home, "node_modules")).filter(
      (name) => !name.startsWith("."),
    );
    expect(installed).toEqual(
      expect.arrayContaining(["better-sqlite3", "libflacjs", "node", "pebblechime"]),
    );
    expect(installed.length).toBeLessThan(12);
    const own = readdirSync(join(home, "node_modules", "pebblechime"), {
      recursive: true,
      encoding: "utf8",
    });
    expect(
      own.filter((name) => /\.(map|tsx?)$|^(tests|src|shared|scripts)(\/|$)/.test(name)),
    ).toEqual([]);
  });

  it("has the command line", () => {
    const words = ["cli", "pairs", "--students", "4", "--json"];
    const { status, stdout } = spawnSync(process.execPath, [bin, ...words], {
      cwd: home,
      encoding: "utf8",
    });
    expect(status).toBe(0);
    expect(JSON.parse(stdout).rounds).toHaveLength(3);
  });

  it("opens the app", async () => {
    const child = spawn(process.execPath, [bin, "--data", join(work.path, "npm-data"), "--quiet"], {
      cwd: home,
    });
    try {
      const address = await new Promise<string>((resolve, reject) => {
        let printed = "";
        child.stdout.setEncoding("utf8").on("data", (text: string) => {
          printed += text;
          const found = /http:\/\/127\.0\.0\.1\S+/.exec(printed)?.[0];
          if (found !== undefined) resolve(found);
        });
        child.on("exit", (code) => reject(new Error(`It ended (code ${code}).\n${printed}`)));
      });
      const answer = await fetch(new URL("/", address));
      expect(answer.status).toBe(200);
      expect(await answer.text()).toContain("Pebblechime");
    } finally {
      const ended = once(child, "exit");
      // On Windows a signal ends the first process alone, and the app goes on.
      if (process.platform !== "win32") child.kill("SIGTERM");
      else spawnSync("taskkill", ["/pid", String(child.pid), "/t", "/f"]);
      await ended;
    }
  });

  it("says in a sentence which Node to install where its own did not come", () => {
    const alone = join(work.path, "alone", "node_modules", "pebblechime");
    cpSync(join(home, "node_modules", "pebblechime"), alone, { recursive: true });
    const script = join(alone, "bin", "pebblechime.mjs");
    // As an older Node would see itself.
    const older = `Object.defineProperty(process.versions, "node", { value: "20.1.0" }); process.argv.splice(1, 0, ${JSON.stringify(script)}); await import(${JSON.stringify(pathToFileURL(script).href)});`;
    const { status, stderr } = spawnSync(process.execPath, ["--input-type=module", "-e", older], {
      encoding: "utf8",
    });
    expect(status).toBe(1);
    expect(stderr).toMatch(
      /^Pebblechime needs Node 24, and this is 20\.1\.0\. Install Node 24 from nodejs\.org/,
    );
  });
});
