// npm run package:check: packs the built app as the installers do, without Electron, lists what is in it
// and holds it to its budget. The tests pack the same way and run what was packed.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { listPackage } from "@electron/asar";
import { root } from "../../tests/e2e/support/programs.ts";
import type { Architecture, Platform } from "./builder-files.ts";
import { budgetBytes, pack } from "./pack.ts";

const systems: readonly (readonly [Platform, Architecture])[] = [
  ["linux", "x64"],
  ["win", "x64"],
  ["mac", "arm64"],
];
for (const [platform, architecture] of systems) {
  const folder = mkdtempSync(join(tmpdir(), "pebblechime-pack-"));
  try {
    const { archive, files, bytes } = await pack(root, folder, platform, architecture);
    const listed = listPackage(archive, { isPack: false }).length;
    const size = (bytes / 1024 / 1024).toFixed(1);
    const isKept = bytes <= budgetBytes;
    console.log(
      `${platform} ${architecture}: ${files.length} files, ${listed} entries, ${size} MB; budget of ${budgetBytes / 1024 / 1024} MB ${isKept ? "kept" : "broken"}`,
    );
    if (!isKept) process.exitCode = 1;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
