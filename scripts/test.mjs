// npm test: installs what is missing, then lint, types, build and every layer of tests.
// npm test -- unit api: only these layers. npm test -- --isolated: before a release.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { ensureBuilt } from "./bootstrap/built.mjs";
import { ensureChromium, ensureLoudnessMeter } from "./bootstrap/chromium.mjs";
import { ensureDependencies } from "./bootstrap/dependencies.mjs";
import { captureAside, pinnedNodePath, requireNode, root } from "./bootstrap/run.mjs";
import { say, stop } from "./bootstrap/say.mjs";

// Programs that tests start, many of them from TypeScript, are compiled once and not at each start.
process.env.NODE_COMPILE_CACHE ??= join(root, "node_modules", ".cache", "compiled");

// Laid in two lanes side by side that take about as long: the journeys, and all else.
const journeys = ["api", "e2e"];
const others = ["unit", "reference", "property", "faults", "browsers"];
const layers = [...others, ...journeys];
const needBrowser = ["e2e"];
const needBuild = ["api", "faults", "e2e", "browsers"];
const needLoudness = ["reference"];

const words = process.argv.slice(2);
// One process for each file: slower, and no file can lean on what another one left in memory.
const isolated = words.includes("--isolated");
const asked = words.filter((word) => word !== "--isolated");
const strange = asked.find((name) => !layers.includes(name));
if (strange !== undefined)
  stop(`There is no layer "${strange}". Choose from: ${layers.join(", ")}, or --isolated.`);
const chosen = asked.length === 0 ? layers : layers.filter((name) => asked.includes(name));
const needs = (those) => chosen.some((name) => those.includes(name));

const total = { passed: 0, failed: 0, skipped: 0 };
const slowest = [];
const began = Date.now();

requireNode();
ensureDependencies();
const node = pinnedNodePath();
const chromium = needs(needBrowser) ? ensureChromium() : null;
if (needs(needLoudness)) ensureLoudnessMeter();
if (needs(needBuild)) count("build", ensureBuilt({ quiet: true }) ? [] : ["the reason is above"]);
if (needs(needBrowser)) count("browser", chromium === null ? ["no Chromium could be had"] : []);

await Promise.all([otherLane(), inOrder(journeys)]);

for (const { ms, file, fullName } of slowest.sort((a, b) => b.ms - a.ms).slice(0, 10)) {
  say(`slow: ${(ms / 1_000).toFixed(1)} s  ${file}: ${fullName}`);
}
const skipped = total.skipped > 0 ? `, ${total.skipped} skipped` : "";
say(`\nin ${((Date.now() - began) / 1_000).toFixed(0)} s`);
say(`${total.passed} passed, ${total.failed} failed${skipped}`);
process.exitCode = total.failed === 0 ? 0 : 1;

async function otherLane() {
  if (asked.length === 0) {
    await check("lint", [
      "node_modules/@biomejs/biome/bin/biome",
      "check",
      "--error-on-warnings",
      ".",
    ]);
    await check("types", ["node_modules/typescript/bin/tsc", "--build"]);
  }
  await inOrder(others);
}

async function inOrder(lane) {
  for (const layer of lane) if (chosen.includes(layer)) await runLayer(layer);
}

/** A check that passes or fails as a whole. */
async function check(name, command) {
  const env = { ...process.env, FORCE_COLOR: "0" };
  const { code, text } = await captureAside(node, command, { env });
  count(name, code === 0 ? [] : [text.trim() || `ended with code ${code}`]);
}

function count(name, reasons) {
  if (reasons.length === 0) total.passed += 1;
  else total.failed += 1;
  say(`${name}: ${reasons.length === 0 ? "passed" : "failed"}`);
  for (const reason of reasons) say(reason);
}

async function runLayer(layer) {
  const folder = mkdtempSync(join(tmpdir(), "pebblechime-tests-"));
  const report = join(folder, "report.json");
  const vitest = ["node_modules/vitest/vitest.mjs", "run", "--project", layer, "--passWithNoTests"];
  const layerBegan = Date.now();
  const env = { ...process.env, FORCE_COLOR: "0" };
  if (chromium !== null) env.PEBBLECHIME_CHROMIUM = chromium;
  if (isolated) env.PEBBLECHIME_ISOLATED = "1";
  const { code, text } = await captureAside(
    node,
    [...vitest, "--reporter=json", `--outputFile=${report}`, "--reporter=default"],
    { env },
  );
  const result = read(report);
  rmSync(folder, { recursive: true, force: true });
  const seconds = ((Date.now() - layerBegan) / 1_000).toFixed(1);
  summarise(layer, seconds, result ?? { testResults: [] }, code, text);
}

function summarise(layer, seconds, { testResults }, code, text) {
  const tests = testResults.flatMap(({ name, assertionResults }) =>
    assertionResults.map((test) => ({ ...test, file: relative(root, name) })),
  );
  const passed = tests.filter(({ status }) => status === "passed");
  const failed = tests.filter(({ status }) => status === "failed");
  const skipped = tests.length - passed.length - failed.length;
  const unread = testResults.filter(
    ({ status, assertionResults }) =>
      status === "failed" && !assertionResults.some((test) => test.status === "failed"),
  );
  // Something went wrong outside any test, such as a rejection that nobody handled.
  const stray = code !== 0 && failed.length + unread.length === 0;
  const failures = failed.length + unread.length + (stray ? 1 : 0);
  for (const { file, fullName, duration } of tests)
    slowest.push({ ms: duration ?? 0, file, fullName });
  total.passed += passed.length;
  total.failed += failures;
  total.skipped += skipped;
  say(`${layer}: ${passed.length} passed, ${failures} failed, ${skipped} skipped (${seconds} s)`);
  for (const { file, fullName, failureMessages } of passed) {
    if (failureMessages.length === 0) continue;
    say(`  passed at a further try: ${file}: ${fullName}`);
    for (const message of failureMessages) say(indented(message, 6));
  }
  for (const line of text.split("\n").filter((each) => each.includes(" is skipped: "))) {
    say(`  ${line.trim()}`);
  }
  for (const { file, fullName, failureMessages } of failed) {
    say(`  FAILED ${file}: ${fullName}\n${indented(failureMessages.join("\n"))}`);
  }
  for (const { name, message } of unread)
    say(`  FAILED ${relative(root, name)}\n${indented(message)}`);
  if (stray)
    say(`  FAILED ${layer} as a whole\n${indented(text.trim().split("\n").slice(-40).join("\n"))}`);
}

/** The reason and the first places in our own code. */
function indented(text, most = 20) {
  return text
    .split("\n")
    .filter((line) => !line.includes("node_modules"))
    .slice(0, most)
    .map((line) => `    ${line.replaceAll(root, "")}`)
    .join("\n");
}

function read(report) {
  try {
    return JSON.parse(readFileSync(report, "utf8"));
  } catch {
    return null;
  }
}
