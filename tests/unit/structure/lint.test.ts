import { spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { root } from "./imports.ts";

const refused = [
  ["the page names the desktop side", "src/live/probe.ts", "../../electron/main.ts"],
  ["the desktop side names the page", "electron/host/probe.ts", "../../src/app/app.tsx"],
  ["shared uses Node", "shared/plan/probe.ts", "node:fs"],
  ["shared names the API", "shared/session/probe.ts", "../api/roster.ts"],
  ["a lower floor names a higher one", "shared/plan/probe.ts", "../schedule/stream.ts"],
  ["a screen names another screen", "src/screens/today/probe.ts", "../board/board-screen.tsx"],
  ["a screen's own folder does", "src/screens/plan/fields/probe.ts", "../../today/welcome.tsx"],
  ["print names a screen", "src/print/probe.ts", "../screens/today/welcome.tsx"],
  ["transfer names a screen", "src/transfer/probe.ts", "../screens/today/welcome.tsx"],
] as const;

const allowed = [
  ["a screen uses what screens share", "src/screens/today/probe.ts", "../../live/strip.tsx"],
  ["a screen reads files", "src/screens/transfer/probe.ts", "../../transfer/mapping.ts"],
  ["a higher floor names a lower one", "shared/schedule/probe.ts", "../plan/plan.ts"],
] as const;

let folder = "";
let report = "";

/** All probes in a folder of their own under the project's rules, linted in one go. */
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "pebblechime-lint-"));
  // Outside a checkout there is no ignore file to use.
  const rules: { vcs?: unknown } = JSON.parse(readFileSync(join(root, "biome.json"), "utf8"));
  delete rules.vcs;
  writeFileSync(join(folder, "biome.json"), JSON.stringify(rules));
  copyFileSync(join(root, "package.json"), join(folder, "package.json"));
  for (const [at, [, file, specifier]] of [...refused, ...allowed].entries()) {
    const path = join(folder, nameOf(file, at));
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, `import "${specifier}";\n`);
  }
  const linter = join(root, "node_modules/@biomejs/biome/bin/biome");
  const lint = ["lint", "--only=style/noRestrictedImports", "--max-diagnostics=100", "."];
  const { stdout, stderr } = spawnSync(process.execPath, [linter, ...lint], {
    cwd: folder,
    encoding: "utf8",
  });
  report = `${stdout}${stderr}`;
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const nameOf = (file: string, at: number) => file.replace("probe.ts", `probe-${at}.ts`);
const isRefused = (file: string, at: number) =>
  report.includes(`${nameOf(file, at)}:1:8 lint/style/noRestrictedImports`);

it.each(refused.map((row, at) => [...row, at] as const))(
  "the linter refuses: %s",
  (_, file, _specifier, at) => expect(isRefused(file, at)).toBe(true),
);

it.each(allowed.map((row, at) => [...row, refused.length + at] as const))(
  "the linter allows: %s",
  (_, file, _specifier, at) => expect(isRefused(file, at)).toBe(false),
);
