// npm run package:check: packs the built app for each system as the installers do, without Electron, and
// holds it to its list, its budget and its processor; then the builder's configuration and the fuses. At
// last the packed app of this system runs a whole journey in the stand-in. Ends with 1 where one is broken.
// node scripts/packaging/check.ts FOLDER: the same of a checkout elsewhere.
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { packedJourney } from "../../tests/e2e/support/packed-journey.ts";
import { root } from "../../tests/e2e/support/programs.ts";
import { ensureChromium } from "../bootstrap/chromium.mjs";
import {
  type Architecture,
  builderConfiguration,
  type Platform,
  runningSystem,
} from "./builder-files.ts";
import { schemaErrors, wantedFuses, writtenFuses } from "./configuration.ts";
import { budgetBytes, pack } from "./pack.ts";
import { wrongInPack } from "./wrong-in-pack.ts";

const systems: readonly (readonly [Platform, Architecture])[] = [
  ["linux", "x64"],
  ["linux", "arm64"],
  ["win", "x64"],
  ["win", "arm64"],
  ["mac", "x64"],
  ["mac", "arm64"],
];

const [, , given] = process.argv;
const checked = given === undefined ? root : resolve(given);
const work = mkdtempSync(join(tmpdir(), "pebblechime-pack-"));
try {
  for (const system of systems) await checkSystem(...system);
  const configuration = builderConfiguration(checked);
  say("the builder's configuration, by its own schema", schemaErrors(root, configuration));
  const fuses = await writtenFuses(configuration.electronFuses);
  say(`fuses ${fuses}`, fuses === wantedFuses ? [] : [`not ${wantedFuses}`]);
  await checkJourney();
} finally {
  rmSync(work, { recursive: true, force: true, maxRetries: 10 });
}

async function checkSystem(platform: Platform, architecture: Architecture): Promise<void> {
  const packed = await packFor(platform, architecture);
  const megabytes = (bytes: number) => (bytes / 1024 / 1024).toFixed(1);
  say(
    `${platform} ${architecture}: ${packed.files.length} files, ${megabytes(packed.bytes)} MB of ${megabytes(budgetBytes)} MB`,
    wrongInPack(packed, platform, architecture),
  );
}

/** Of this system's pack, and only where nothing else is wrong: a broken pack fails in a hundred ways. */
async function checkJourney(): Promise<void> {
  const what = "a whole journey of the packed app, in the stand-in";
  if (process.exitCode === 1) {
    console.log(`${what}: not run, because of the above`);
    return;
  }
  process.env.PEBBLECHIME_CHROMIUM = ensureChromium() ?? "";
  const [platform, architecture] = runningSystem();
  const { archive } = await packFor(platform, architecture);
  say(what, await packedJourney(archive, join(work, "journey")));
}

function packFor(platform: Platform, architecture: Architecture) {
  const folder = join(work, `${platform}-${architecture}`);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
  return pack(checked, folder, platform, architecture);
}

/** Prints what was checked and everything against it. */
function say(what: string, against: readonly string[]): void {
  console.log(`${what}: ${against.length === 0 ? "kept" : "broken"}`);
  for (const each of against) console.log(`  ${each}`);
  if (against.length > 0) process.exitCode = 1;
}
