// Measures how exactly cues sound: a real browser on a screen nobody sees plays into a sink nobody
// hears, the sink is recorded, the chimes are found in the recording and compared with the schedule.
//
//   node tests/bench/sound.ts [--quick] [--only NAME]
//
// It installs nothing; what it misses it names.
import { readFileSync } from "node:fs";
import seedrandom from "seedrandom";
import { decodeWav } from "../../electron/recording/wav.ts";
import { findOnsets, matchOnsets } from "./sound/onsets.ts";
import { openPlayerHost } from "./sound/player-host.ts";
import { type Browser, beBusy, missingTools, openRig, type Page, type Rig } from "./sound/rig.ts";
import { spreadOf } from "./sound/spread.ts";

interface Case {
  readonly name: string;
  readonly hidden: boolean;
  readonly busy: boolean;
  /** Browsers at the same time, each with its own sink. */
  readonly browsers: number;
  /** Cues in each of them. */
  readonly cues: number;
  readonly gapMs: readonly [shortest: number, longest: number];
}

const quick = process.argv.includes("--quick");
const only = process.argv[process.argv.indexOf("--only") + 1];
const short = [2000, 3400] as const;
const cues = quick ? 12 : 100;
const cases: readonly Case[] = [
  { name: "idle", hidden: false, busy: false, browsers: 1, cues, gapMs: short },
  { name: "busy", hidden: false, busy: true, browsers: 1, cues, gapMs: short },
  { name: "hidden", hidden: true, busy: false, browsers: 1, cues, gapMs: short },
  { name: "hidden-busy", hidden: true, busy: true, browsers: 1, cues, gapMs: short },
  // A silent hidden page is slowed down after minutes and its sound device let go after half a
  // minute, so short gaps would hide the trouble. Four browsers at once keep the bench short.
  {
    name: "hidden-long-gaps",
    hidden: true,
    busy: false,
    browsers: 4,
    cues: quick ? 2 : 25,
    gapMs: [31_000, 39_000],
  },
];
const chosen = cases.filter(({ name }) =>
  process.argv.includes("--only") ? name === only : !quick || name !== "hidden",
);

const chime = decodeWav(
  readFileSync(new URL("../../assets/chimes/bell.wav", import.meta.url)),
).samples;

interface Heard {
  readonly errors: readonly number[];
  readonly missed: number;
  readonly doubled: number;
  /** Reported begin less the recorded one. */
  readonly reportErrors: readonly number[];
  readonly failures: readonly string[];
}

async function runCase(rig: Rig, which: Case): Promise<void> {
  const browsers = await Promise.all(Array.from({ length: which.browsers }, rig.openBrowser));
  const stopBusy = which.busy ? beBusy() : () => {};
  try {
    const heard = await Promise.all(
      browsers.map((browser, index) => listen(browser, which, `${which.name}/${index}`)),
    );
    print(which, heard);
  } finally {
    stopBusy();
    for (const browser of browsers) browser.close();
  }
}

async function listen(browser: Browser, which: Case, seed: string): Promise<Heard> {
  const host = await openPlayerHost();
  const page = await browser.open(host.url);
  await page.click(100, 100);
  await becomeReady(page);
  if (which.hidden) await page.hide();
  const recorder = browser.record();
  const dueMs = schedule(which, seed);
  await host.callCues(dueMs);
  if (which.hidden && (await page.evaluate("document.visibilityState")) !== "hidden") {
    throw new Error("The page did not stay hidden; the figures would not count.");
  }
  const { samples, startedMs } = await recorder.stop();
  const heardMs = findOnsets(samples, chime).map(({ at }) => startedMs + at / 48);
  const told = await page.evaluate("bench.told");
  host.close();
  return { ...matchOnsets(dueMs, heardMs), ...compareReports(told, heardMs) };
}

async function becomeReady(page: Page): Promise<void> {
  for (let turn = 0; turn < 100; turn++) {
    const ready = await page.evaluate("bench.ready()");
    if (ready === "ready") return;
    if (ready !== null) throw new Error(`The page's sound is ${ready}.`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error("The page's sound did not get ready within ten seconds.");
}

function schedule(which: Case, seed: string): number[] {
  const draw = seedrandom(`bench/${seed}`);
  const [shortest, longest] = which.gapMs;
  // The sound server takes some seconds to estimate its own delay after a stream opens.
  let due = performance.now() + (quick ? 8000 : 25_000);
  return Array.from({ length: which.cues }, (_, index) => {
    if (index > 0 || shortest > 10_000) due += shortest + draw() * (longest - shortest);
    return due;
  });
}

function compareReports(told: unknown, heardMs: readonly number[]) {
  if (!Array.isArray(told)) throw new Error("The page kept no list of what it reported.");
  const began: number[] = told.flatMap((outcome) => outcome.beganMonotonicMs ?? []);
  const failures: string[] = told.flatMap((outcome) => outcome.reason ?? []);
  return { reportErrors: matchOnsets(heardMs, began).errors, failures };
}

function print(which: Case, heard: readonly Heard[]): void {
  // Each browser has its own recorder, whose constant is its own: the spread is about each one's.
  const all = spreadOf(heard.flatMap(({ errors }) => centred(errors)));
  const reports = spreadOf(heard.flatMap(({ reportErrors }) => centred(reportErrors)));
  const sum = (pick: (one: Heard) => number) => heard.reduce((total, one) => total + pick(one), 0);
  const constants = heard.map(({ errors }) => spreadOf(errors).constant.toFixed(1)).join(", ");
  const failures = heard.flatMap((one) => one.failures);
  console.log(
    [
      `${which.name}: ${all.count} cues heard, missed ${sum((one) => one.missed)}, doubled ${sum((one) => one.doubled)}`,
      `  constant offset, the recorder's own delay in it: ${constants} ms`,
      `  onset spread about it: median ${ms(all.median)}, p95 ${ms(all.p95)}, p99 ${ms(all.p99)}, max ${ms(all.max)}`,
      `  reported begin against recorded onset: median ${ms(reports.median)}, p99 ${ms(reports.p99)}, max ${ms(reports.max)}, ${reports.count} reported`,
      ...(failures.length > 0 ? [`  reported as not sounded: ${failures.join(", ")}`] : []),
    ].join("\n"),
  );
}

function centred(errors: readonly number[]): number[] {
  const { constant } = spreadOf(errors);
  return errors.map((error) => error - constant);
}

const ms = (value: number) => `${value.toFixed(2)} ms`;

const missing = missingTools();
if (missing.length > 0) {
  console.error(
    `The sound bench needs these, and installs nothing itself: ${missing.join(", ")}. ` +
      "On Debian: apt-get install xvfb pulseaudio pulseaudio-utils chromium.",
  );
  process.exit(2);
}
if (chosen.length === 0) {
  console.error(`There is no case ${only}. Cases: ${cases.map(({ name }) => name).join(", ")}.`);
  process.exit(2);
}
const rig = await openRig();
try {
  for (const which of chosen) await runCase(rig, which);
} finally {
  rig.close();
}
