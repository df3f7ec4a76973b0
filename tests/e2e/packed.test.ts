import { spawn } from "node:child_process";
import { cpSync, mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { root } from "./support/programs.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const work = temporaryFolder();
afterAll(() => work.remove());

describe("the app as the installers pack it", () => {
  const check = (...words: string[]) =>
    new Promise<{ code: number | null; lines: string[] }>((resolve) => {
      const script = join(root, "scripts", "packaging", "check.ts");
      const child = spawn(process.execPath, [script, ...words], {
        stdio: ["ignore", "pipe", "inherit"],
      });
      let printed = "";
      child.stdout.setEncoding("utf8").on("data", (text: string) => {
        printed += text;
      });
      child.on("exit", (code) => resolve({ code, lines: printed.trim().split("\n") }));
    });
  const systems = ["linux", "win", "mac"].flatMap((system) => [`${system} x64`, `${system} arm64`]);

  it("keeps its list, size and processors, the configuration and the fuses, and runs a whole journey", async () => {
    const { code, lines } = await check();
    expect(lines.filter((line) => !line.startsWith("End-to-end tests run"))).toEqual([
      ...systems.map((system) =>
        expect.stringMatching(`^${system}: \\d{3} files, \\d+\\.\\d MB of 25\\.0 MB: kept$`),
      ),
      "the builder's configuration, by its own schema: kept",
      "fuses 010011001: kept",
      "a whole journey of the packed app, in the stand-in: kept",
    ]);
    expect(code).toBe(0);
  });

  it("is told from one that is too large, has a file too many or one too few, or another's binary", async () => {
    const broken = join(work.path, "broken");
    mkdirSync(broken);
    for (const part of [
      "dist",
      "assets",
      "packaging",
      "package.json",
      "package-lock.json",
      "LICENSE",
    ])
      cpSync(join(root, part), join(broken, part), { recursive: true });
    for (const name of ["better-sqlite3", "libflacjs"])
      cpSync(join(root, "node_modules", name), join(broken, "node_modules", name), {
        recursive: true,
      });
    writeFileSync(join(broken, "dist/app/assets/large.png"), Buffer.alloc(26 * 1024 * 1024));
    writeFileSync(join(broken, "dist/app/assets/notes.txt"), "");
    rmSync(join(broken, "dist/electron/preload.cjs"));
    const binaries = join(broken, "node_modules/better-sqlite3/prebuilds");
    cpSync(join(binaries, "linux-arm64.node"), join(binaries, "linux-x64.node"));
    const { code, lines } = await check(broken);
    expect(lines.filter((line) => line.endsWith(": broken"))).toHaveLength(systems.length);
    expect(lines.slice(1, 5)).toEqual([
      "  above the budget",
      "  not on the list: dist/app/assets/notes.txt",
      "  missing: ^dist\\/electron\\/preload\\.cjs$",
      "  node_modules/better-sqlite3/prebuilds/linux-x64.node is for linux arm64, not linux x64",
    ]);
    expect(lines.at(-1)).toMatch(/stand-in: not run/);
    expect(code).toBe(1);
  });
});
