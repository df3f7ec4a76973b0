// Measures how exactly cues sound: a real browser on a screen nobody sees plays into a sink nobody
// hears, the sink is recorded, the chimes are found in the recording and compared with the schedule.
//
//   node tests/bench/sound.ts [--quick] [--player] [--only CASE]
//
// It runs the built app; with --player the chime player alone, on a page of its own. It installs
// nothing; what it misses it names. A whole run takes about 35 minutes, a quick one three.
import { readFileSync } from "node:fs";
import { availableParallelism, loadavg } from "node:os";
import { parseArgs } from "node:util";
import { decodeWav } from "../../electron/recording/wav.ts";
import { appIsBuilt, appSource } from "./sound/app-source.ts";
import { findOnsets, hiddenDoubles, matchOnsets } from "./sound/onsets.ts";
import { playerSource } from "./sound/player-source.ts";
import { type Browser, beBusy, missingTools, openRig, type Rig } from "./sound/rig.ts";
import type { CueOrder, SoundSource } from "./sound/sound-source.ts";
import { spreadOf } from "./sound/spread.ts";

interface Case {
  readonly name: string;
  readonly hidden: boolean;
  readonly busy: boolean;
  /** Cues in each of so many browsers at the same time, each with its own sink. */
  readonly browsers: number;
  readonly cues: number;
  readonly gapMs: CueOrder["gapMs"];
}

interface Heard {
  readonly errors: readonly number[];
  readonly missed: number;
  readonly doubled: number;
  /** Reported begin less the recorded one. */
  readonly reportErrors: readonly number[];
  readonly failures: readonly string[];
}

const { values: options } = parseArgs({
  options: {
    quick: { type: "boolean", default: false },
    player: { type: "boolean", default: false },
    only: { type: "string" },
  },
});

// A hidden page in which nothing sounds has its sound device let go after half a minute and its timers
// slowed after minutes, so short gaps would hide the trouble. Several browsers at once keep it short.
const short = { browsers: 1, cues: options.quick ? 8 : 100, gapMs: [4200, 5800] } as const;
const long = { browsers: 4, cues: options.quick ? 2 : 25, gapMs: [30_500, 36_000] } as const;
/** Cases of one row run at the same time. */
const rows: readonly (readonly Case[])[] = [
  [
    { name: "idle", hidden: false, busy: false, ...short },
    { name: "hidden", hidden: true, busy: false, ...short },
  ],
  [
    { name: "busy", hidden: false, busy: true, ...short },
    { name: "hidden-busy", hidden: true, busy: true, ...short },
  ],
  [{ name: "hidden-long-gaps", hidden: true, busy: false, ...long }],
];
/** Has the page keep every state of visibility that it comes to. */
const watchVisibility = `globalThis.visibilitySeen = [document.visibilityState];
  document.addEventListener("visibilitychange", () => visibilitySeen.push(document.visibilityState));`;
/** Sounds less like the chime than this are something else: the chime that announces the end. */
const leastLikeness = 0.35;

const chime = decodeWav(
  readFileSync(new URL("../../assets/chimes/bell.wav", import.meta.url)),
).samples;

async function runRow(rig: Rig, row: readonly Case[], source: SoundSource): Promise<void> {
  const stopBusy = row.some(({ busy }) => busy) ? beBusy() : () => {};
  try {
    await Promise.all(row.map((which) => runCase(rig, which, source)));
  } finally {
    stopBusy();
  }
}

async function runCase(rig: Rig, which: Case, source: SoundSource): Promise<void> {
  const browsers: Browser[] = [];
  try {
    for (let count = 0; count < which.browsers; count++) browsers.push(await rig.openBrowser());
    const heard = await Promise.all(
      browsers.map((browser, index) => listen(browser, which, `${which.name}/${index}`, source)),
    );
    print(which, heard);
  } finally {
    for (const browser of browsers) browser.close();
  }
}

async function listen(
  browser: Browser,
  which: Case,
  seed: string,
  source: SoundSource,
): Promise<Heard> {
  const quietMs = options.quick ? 8000 : 25_000;
  const { cues, gapMs } = which;
  const sounding = await source(browser, { cues, gapMs, seed, quietMs });
  try {
    const recorder = browser.record();
    if (which.hidden) await sounding.page.hide();
    await sounding.page.evaluate(watchVisibility);
    const { dueMs, beganMs, failures } = await sounding.finish();
    const seen = await sounding.page.evaluate("[...visibilitySeen, document.visibilityState]");
    const wanted = which.hidden ? "hidden" : "visible";
    if (!Array.isArray(seen) || seen.some((state) => state !== wanted)) {
      throw new Error(
        `${which.name}: the page was not ${wanted} all along, the figures do not count.`,
      );
    }
    const { samples, startedMs } = await recorder.stop();
    const chimes = findOnsets(samples, chime).filter(({ likeness }) => likeness >= leastLikeness);
    const heardMs = chimes.map(({ at }) => startedMs + at / 48);
    const reportErrors = matchOnsets(heardMs, beganMs).errors;
    const matched = matchOnsets(dueMs, heardMs);
    const doubled = matched.doubled + hiddenDoubles(chimes);
    return { ...matched, doubled, reportErrors, failures };
  } finally {
    sounding.close();
  }
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
      `${which.name}, ${beside(which)}: ${all.count} cues heard, missed ${sum((one) => one.missed)}, doubled ${sum((one) => one.doubled)}`,
      `  constant offset, the recorder's own delay in it: ${constants} ms`,
      `  onset spread about it: median ${ms(all.median)}, p95 ${ms(all.p95)}, p99 ${ms(all.p99)}, max ${ms(all.max)}`,
      `  reported begin against recorded onset: median ${ms(reports.median)}, p99 ${ms(reports.p99)}, max ${ms(reports.max)}, ${reports.count} reported`,
      `  load of the machine at the end of it: ${loadavg()[0]?.toFixed(1)} on ${availableParallelism()} processors`,
      ...(failures.length > 0 ? [`  reported as not sounded: ${failures.join(", ")}`] : []),
    ].join("\n"),
  );
}

/** What else ran: a case shares the machine with the others of its row. */
function beside(which: Case): string {
  const row = rows.find((cases) => cases.includes(which)) ?? [];
  const others = chosen.flat().filter((other) => row.includes(other) && other !== which);
  const browsers = which.browsers === 1 ? "one browser" : `${which.browsers} browsers`;
  if (others.length === 0) return `${browsers}, nothing beside`;
  return `${browsers} beside the case ${others.map(({ name }) => name).join(", ")}`;
}

function centred(errors: readonly number[]): number[] {
  const { constant } = spreadOf(errors);
  return errors.map((error) => error - constant);
}

function ms(value: number): string {
  return `${value.toFixed(2)} ms`;
}

function refuse(sentence: string): never {
  console.error(sentence);
  process.exit(2);
}

const missing = missingTools();
if (missing.length > 0) {
  refuse(
    `The sound bench needs these, and installs nothing itself: ${missing.join(", ")}. ` +
      "On Debian: apt-get install xvfb pulseaudio pulseaudio-utils chromium.",
  );
}
if (!options.player && !appIsBuilt) refuse("The app is not built. Run: npm run build");
const chosen = rows
  .map((row) => row.filter(({ name }) => options.only === undefined || name === options.only))
  .filter((row) => row.length > 0);
if (chosen.length === 0) {
  const names = rows.flat().map(({ name }) => name);
  refuse(`There is no case ${options.only}. Cases: ${names.join(", ")}.`);
}

console.log(options.player ? "The chime player alone" : "The built app");
const rig = await openRig();
try {
  for (const row of chosen) await runRow(rig, row, options.player ? playerSource : appSource);
} finally {
  rig.close();
}
