import { execFileSync, spawn, spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { extractAll, listPackage } from "@electron/asar";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { pack } from "../../scripts/packaging/pack.ts";
import { launchApp } from "./support/launch.ts";
import { root } from "./support/programs.ts";
import { answerOnTile, button, makeGroup, showTiles } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const work = temporaryFolder();
afterAll(() => work.remove());

describe("the app as the installers pack it", () => {
  const unpacked = join(work.path, "app");
  let names: string[] = [];

  beforeAll(async () => {
    const folder = join(work.path, "pack");
    mkdirSync(folder);
    const { archive } = await pack(root, folder, "linux", "x64");
    names = listPackage(archive, { isPack: false }).map((name) => name.replaceAll("\\", "/"));
    extractAll(archive, unpacked);
    // What lies beside the archive is what the system loads; the archive names it all the same.
    expect(existsSync(join(`${archive}.unpacked`, "node_modules/libflacjs/dist/libflac.js"))).toBe(
      true,
    );
    cpSync(`${archive}.unpacked`, unpacked, { recursive: true });
  });

  it("holds what the allow-list names, and nothing else", () => {
    const allowed = [
      /^\/package\.json$/,
      /^\/LICENSE$/,
      /^\/dist\/THIRD-PARTY\.txt$/,
      /^\/dist\/electron\/(main\.js|preload\.cjs)$/,
      /^\/dist\/app\/index\.html$/,
      /^\/dist\/app\/assets\/[\w.-]+\.(js|css|wav|woff2|svg|png)$/,
      /^\/dist\/seats\/(index\.html|seat\.(js|css))$/,
      /^\/assets\/icon\.png$/,
      /^\/assets\/chimes\/\w+\.wav$/,
      /^\/node_modules\/better-sqlite3\/(package\.json|LICENSE)$/,
      /^\/node_modules\/better-sqlite3\/lib\/([\w-]+\/)?[\w-]+\.js$/,
      /^\/node_modules\/better-sqlite3\/prebuilds\/linux-x64\.node$/,
      /^\/node_modules\/libflacjs\/(package\.json|LICENSE|dist\/libflac\.js)$/,
    ];
    const files = names.filter((name) => /\.\w+$|\/LICENSE$/.test(name));
    expect(files.filter((name) => !allowed.some((pattern) => pattern.test(name)))).toEqual([]);
    expect(files.length).toBeGreaterThan(100);
    expect(files.filter((name) => /\.(map|tsx?)$|standin\/|\/tests?\//i.test(name))).toEqual([]);
    expect(files.filter((name) => name.endsWith(".node"))).toEqual([
      "/node_modules/better-sqlite3/prebuilds/linux-x64.node",
    ]);
  });

  it("packs the database's binary of each system and no other's", async () => {
    for (const [platform, architecture, tags] of [
      ["win", "x64", ["win32-x64"]],
      ["win", "arm64", ["win32-arm64"]],
      ["mac", "arm64", ["darwin-arm64", "darwin-x64"]],
      ["linux", "arm64", ["linux-arm64"]],
    ] as const) {
      const folder = join(work.path, `${platform}-${architecture}`);
      mkdirSync(folder);
      const { files } = await pack(root, folder, platform, architecture);
      const binaries = files.filter((name) => name.endsWith(".node"));
      expect(binaries).toEqual(
        tags.map((tag) => `node_modules/better-sqlite3/prebuilds/${tag}.node`),
      );
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
  const bin = join(home, "node_modules", ".bin", "pebblechime");

  beforeAll(() => {
    mkdirSync(home);
    // The build is there already; packing it again would take its place under running tests.
    const packed = execFileSync(
      "npm",
      ["pack", "--silent", "--ignore-scripts", "--pack-destination", work.path],
      { cwd: root, encoding: "utf8" },
    ).trim();
    const manifest = { private: true, allowScripts: { node: true } };
    writeFileSync(join(home, "package.json"), JSON.stringify(manifest));
    const file = join(work.path, packed.split("\n").at(-1) ?? "");
    const install = ["install", file, "--omit=dev", "--no-audit", "--no-fund", "--loglevel=error"];
    execFileSync("npm", install, { cwd: home });
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
    const { status, stdout } = spawnSync(bin, words, { cwd: home, encoding: "utf8" });
    expect(status).toBe(0);
    expect(JSON.parse(stdout).rounds).toHaveLength(3);
  });

  it("opens the app", async () => {
    const child = spawn(bin, ["--data", join(work.path, "npm-data"), "--quiet"], { cwd: home });
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
      child.kill("SIGTERM");
    }
  });

  it("says in a sentence which Node to install where its own did not come", () => {
    const alone = join(work.path, "alone", "node_modules", "pebblechime");
    cpSync(join(home, "node_modules", "pebblechime"), alone, { recursive: true });
    const script = join(alone, "bin", "pebblechime.mjs");
    // As an older Node would see itself.
    const older = `Object.defineProperty(process.versions, "node", { value: "20.1.0" }); process.argv.splice(1, 0, ${JSON.stringify(script)}); await import(${JSON.stringify(`file://${script}`)});`;
    const { status, stderr } = spawnSync(process.execPath, ["--input-type=module", "-e", older], {
      encoding: "utf8",
    });
    expect(status).toBe(1);
    expect(stderr).toMatch(
      /^Pebblechime needs Node 24, and this is 20\.1\.0\. Install Node 24 from nodejs\.org/,
    );
  });
});
