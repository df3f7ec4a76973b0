// Bundles the desktop side into dist/electron and the page into dist/app.
import { rename, rm, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { build as bundle } from "esbuild";
import { build as buildPage } from "vite";
import { thirdPartyNotices } from "./packaging/notices.ts";
import { buildSeat } from "./seats/build-seat.ts";

const root = fileURLToPath(new URL("..", import.meta.url));
/** Takes the place of dist in one step at the end, so that nobody ever meets half a build. */
const next = `${root}dist.next-${process.pid}`;
const entry = (name) => `electron/${name}.ts`;

const desktop = {
  absWorkingDir: root,
  bundle: true,
  outdir: `${next}/electron`,
  platform: "node",
  target: "node24",
  // Native, provided by the runtime, or in need of its own folder; everything else is bundled, so that
  // little is loaded at start.
  external: ["electron", "better-sqlite3", "libflacjs"],
  sourcemap: "linked",
  logLevel: "warning",
};

/** What bundled CommonJS packages expect inside an ES module. */
const requireBanner =
  'import { createRequire as __createRequire } from "node:module"; const require = __createRequire(import.meta.url);';

const modules = ["main", "loopback", "cli"].map(entry);
const preloads = ["preload"].map(entry);

try {
  await buildAll();
  await writeFile(`${next}/THIRD-PARTY.txt`, thirdPartyNotices(root));
  await rm(`${root}dist`, { recursive: true, force: true });
  await rename(next, `${root}dist`);
} finally {
  await rm(next, { recursive: true, force: true });
}

function buildAll() {
  return Promise.all([
    bundle({ ...desktop, entryPoints: modules, format: "esm", banner: { js: requireBanner } }),
    bundle({
      ...desktop,
      entryPoints: preloads,
      format: "cjs",
      outExtension: { ".js": ".cjs" },
      // A sandboxed preload may require only these; anything else must fail here, not in the window.
      external: ["electron", "events", "timers", "url"],
      platform: "browser",
    }),
    buildPage({
      root: `${root}src`,
      configFile: `${root}vite.config.ts`,
      logLevel: "warn",
      build: { outDir: `${next}/app` },
    }),
    buildSeat(root, `${next}/seats`),
  ]);
}
