// Measures how exactly cues sound: a real browser on a screen nobody sees plays into a sink nobody
// hears, the sink is recorded, the chimes are found in the recording and compared with the schedule.
//
//   node tests/bench/sound.ts [--quick] [--goal] [--player] [--only CASE] [--hours N]
//
// It runs the built app; with --player the chime player alone, on a page of its own. It installs
// nothing; what it misses it names. A whole run takes about 35 minutes, a quick one three. With --goal it
// takes eleven: 120 cues on an idle machine and 120 on a busy one, held to the goal. With --hours N a
// hidden session runs that long at a class's own density, and is told hour by hour.
import { readFileSync } from "node:fs";
import { availableParallelism, loadavg } from "node:os";
import { parseArgs } from "node:util";
import { decodeWav } from "../../shared/sound/wav.ts";
import { appIsBuilt, appSource } from "./sound/app-source.ts";
import { fitDrift, type HeardCue } from "./sound/drift.ts";
import { findOnsets, hiddenDoubles, matchOnsets, type Onset } from "./sound/onsets.ts";
import { playerSource } from "./sound/player-source.ts";
import {
  type Browser,
  beBusy,
  missingTools,
  openRig,
  type Page,
  pause,
  type Rig,
} from "./sound/rig.ts";
import type { CueOrder, Sleep, Sounding, SoundSource } from "./sound/sound-source.ts";
import { spreadOf } from "./sound/spread.ts";
import { sortByStops } from "./sound/stops.ts";

interface Case {
  readonly name: string;
  readonly page: "visible" | "hidden" | "minimised";
  readonly busy: boolean;
  /** How long program and page are stopped, in ms, one time after the other; spread over the session. */
  readonly sleepsMs: readonly number[];
  /** Cues in each of so many browsers at the same time, each with its own sink. */
  readonly browsers: number;
  readonly cues: number;
  readonly gapMs: CueOrder["gapMs"];
}

interface Heard {
  readonly errors: readonly number[];
  readonly matched: readonly HeardCue[];
  readonly missedMs: readonly number[];
  /** Memory of app and browser, by the moment it was looked at. */
  readonly memory: readonly { readonly atMs: number; readonly mb: number }[];
  readonly missed: number;
  readonly doubled: number;
  readonly sleptThrough: number;
  /** Sounds that the sound device held when all was stopped: it gave out a piece then, or on waking. */
  readonly ofStops: number;
  /** How late cues began that were due just as all was woken, in ms. */
  readonly lateMs: readonly number[];
  /** Reported begin less the recorded one. */
  readonly reportErrors: readonly number[];
  readonly failures: readonly string[];
}

const { values: options } = parseArgs({
  options: {
    quick: { type: "boolean", default: false },
    goal: { type: "boolean", default: false },
    player: { type: "boolean", default: false },
    only: { type: "string" },
    hours: { type: "string" },
  },
});

const hourMs = 3_600_000;

// A hidden page in which nothing sounds has its sound device let go after half a minute and its timers
// slowed after minutes, so short gaps would hide the trouble. Several browsers at once keep it short.
const usual = { page: "visible", busy: false, sleepsMs: [], browsers: 1 } as const;
const short = { ...usual, cues: options.quick ? 8 : 100, gapMs: [4200, 5800] } as const;
const long = options.quick
  ? ({ browsers: 1, cues: 2, gapMs: [30_500, 36_000] } as const)
  : ({ browsers: 4, cues: 25, gapMs: [30_500, 36_000] } as const);
/** In turn too short for the session to stop, and long enough for it to wait for its teacher. */
const sleepsMs = options.quick ? [12_000, 34_000] : [12_000, 34_000, 20_000, 60_000];
const idle: Case = { name: "idle", ...short };
const hidden: Case = { name: "hidden", ...short, page: "hidden" };
const busy: Case = { name: "busy", ...short, busy: true };
const hiddenBusy: Case = { name: "hidden-busy", ...short, page: "hidden", busy: true };
const longGaps: Case = { name: "hidden-long-gaps", ...usual, ...long, page: "hidden" };
const minimised: Case = { name: "minimised", ...short, page: "minimised" };
const slept: Case = { name: "slept", ...short, cues: options.quick ? 8 : 110, sleepsMs };
/** Cases of one row run at the same time. */
/** A session lasts three hours at most; a cue about every two minutes is a usual plan. */
const mostHours = 2.9;
const meanGapMs = 120_000;
const hours = options.hours === undefined ? null : Number(options.hours);
/** Within so many ms of its moment begin 99 of 100 cues. */
const goalMs = { idle: 1, busy: 3 } as const;
// Two browsers side by side halve the time and leave an idle machine idle.
const ofGoal = { ...usual, browsers: 2, cues: 60, gapMs: [4200, 5800] } as const;
const hoursLong = (of: number): Case => ({
  name: "hours",
  ...usual,
  page: "hidden",
  cues: Math.max(2, Math.floor((of * hourMs) / meanGapMs)),
  gapMs: [meanGapMs / 2, 1.5 * meanGapMs],
});
const rows: readonly (readonly Case[])[] =
  hours !== null
    ? [[hoursLong(hours)]]
    : options.goal
      ? [[{ name: "idle", ...ofGoal }], [{ name: "busy", ...ofGoal, busy: true }]]
      : options.quick
        ? [
            [idle, hidden, minimised, longGaps, slept],
            [busy, hiddenBusy],
          ]
        : [
            [idle, hidden],
            [busy, hiddenBusy],
            [longGaps, minimised, slept],
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
  const quietMs = options.quick || options.goal ? 8000 : 25_000;
  const { cues, gapMs } = which;
  const sounding = await source(browser, { cues, gapMs, seed, quietMs });
  try {
    const recorder = browser.record();
    await putAway(sounding.page, which);
    await sounding.page.evaluate(watchVisibility);
    const stopLooking = lookAtMemory(sounding);
    const [{ dueMs, sleptThrough, beganMs, failures }, sleeps] = await Promise.all([
      sounding.finish(),
      sleepNowAndThen(sounding, which, quietMs),
    ]);
    const memory = stopLooking();
    const seen = await sounding.page.evaluate("[...visibilitySeen, document.visibilityState]");
    const wanted = which.page === "visible" ? "visible" : "hidden";
    if (!Array.isArray(seen) || seen.some((state) => state !== wanted)) {
      throw new Error(
        `${which.name}: the page was not ${wanted} all along, the figures do not count.`,
      );
    }
    const { samples, startedMs } = await recorder.stop();
    const chimes = findOnsets(samples, chime).filter(({ likeness }) => likeness >= leastLikeness);
    const atMs = ({ at }: Onset) => startedMs + at / 48;
    const { whole, cutOff, pieces, late } = sortByStops(
      chimes,
      atMs,
      dueMs,
      sleeps,
      chime.length / 48,
    );
    const heardMs = [...whole, ...cutOff].map(atMs);
    const onTimeMs = dueMs.filter((due) => !late.some(({ dueMs: other }) => other === due));
    const matched = matchOnsets(onTimeMs, heardMs);
    return {
      ...matched,
      memory,
      doubled: matched.doubled + hiddenDoubles(whole),
      sleptThrough,
      ofStops: pieces.length,
      lateMs: late.map(({ lateMs }) => lateMs),
      reportErrors: matchOnsets(heardMs, beganMs).errors,
      failures,
    };
  } finally {
    sounding.close();
  }
}

/** Looks at the memory at once and every ten minutes; the function stops and tells what was seen. */
function lookAtMemory(sounding: Sounding): () => Heard["memory"] {
  const seen: { atMs: number; mb: number }[] = [];
  const look = () => seen.push({ atMs: performance.now(), mb: sounding.memoryMb() });
  look();
  const timer = setInterval(look, hourMs / 6);
  return () => {
    clearInterval(timer);
    return seen;
  };
}

async function putAway(page: Page, which: Case): Promise<void> {
  if (which.page === "hidden") await page.hide();
  if (which.page === "minimised") await page.minimise();
}

async function sleepNowAndThen(
  sounding: Sounding,
  { cues, gapMs: [shortest, longest], sleepsMs }: Case,
  quietMs: number,
): Promise<Sleep[]> {
  const sleeps: Sleep[] = [];
  const cuesMs = (cues * (shortest + longest)) / 2;
  await pause(quietMs);
  for (const sleepMs of sleepsMs) {
    await pause(cuesMs / (sleepsMs.length + 1));
    sleeps.push(await sounding.sleep(sleepMs));
  }
  return sleeps;
}

function print(which: Case, heard: readonly Heard[]): void {
  // Each browser has its own recorder, whose constant is its own: the spread is about each one's.
  const drifts = heard.map(({ matched }) => fitDrift(matched));
  const all = spreadOf(heard.flatMap(({ errors }) => centred(errors)));
  const residual = spreadOf(drifts.flatMap(({ residualMs }) => centred(residualMs)));
  const ppm = drifts.map(({ partsPerMillion }) => partsPerMillion.toFixed(1)).join(", ");
  const reports = spreadOf(heard.flatMap(({ reportErrors }) => centred(reportErrors)));
  const sum = (pick: (one: Heard) => number) => heard.reduce((total, one) => total + pick(one), 0);
  const constants = heard.map(({ errors }) => spreadOf(errors).constant.toFixed(1)).join(", ");
  const failures = heard.flatMap((one) => one.failures);
  console.log(
    [
      `${which.name}, ${beside(which)}: ${all.count} cues heard, missed ${sum((one) => one.missed)}, doubled ${sum((one) => one.doubled)}`,
      `  constant offset, the recorder's own delay in it: ${constants} ms`,
      `  onset spread about it: median ${ms(all.median)}, p95 ${ms(all.p95)}, p99 ${ms(all.p99)}, max ${ms(all.max)}`,
      `  the recorder's clock drifts by ${ppm} parts in a million; residual without it: median ${ms(residual.median)}, p95 ${ms(residual.p95)}, p99 ${ms(residual.p99)}, max ${ms(residual.max)}`,
      `  furthest off: ${heard.map(furthestOff).join("; ")}`,
      ...(options.goal
        ? [
            goalLine(
              which,
              residual.p99,
              sum((one) => one.missed),
            ),
          ]
        : []),
      ...(hours === null ? [] : heard.flatMap(hourLines)),
      `  reported begin against recorded onset: median ${ms(reports.median)}, p99 ${ms(reports.p99)}, max ${ms(reports.max)}, ${reports.count} reported`,
      `  load of the machine at the end of it: ${loadavg()[0]?.toFixed(1)} on ${availableParallelism()} processors`,
      ...(which.sleepsMs.length > 0
        ? [
            sleepLine(
              which,
              sum((one) => one.sleptThrough),
              sum((one) => one.ofStops),
              heard.flatMap((one) => one.lateMs),
            ),
          ]
        : []),
      ...(failures.length > 0 ? [`  reported as not sounded: ${failures.join(", ")}`] : []),
    ].join("\n"),
  );
}

/** The three cues whose residual is the largest, by their place among those that were heard. */
function furthestOff({ matched }: Heard): string {
  return centred(fitDrift(matched).residualMs)
    .map((off, index) => ({ off, place: index + 1 }))
    .sort((a, b) => Math.abs(b.off) - Math.abs(a.off))
    .slice(0, 3)
    .map(({ off, place }) => `cue ${place} ${ms(off)}`)
    .join(", ");
}

function goalLine({ busy }: Case, p99: number, missed: number): string {
  const goal = busy ? goalMs.busy : goalMs.idle;
  const verdict = missed === 0 && p99 <= goal ? "met" : "NOT met";
  return `  goal, p99 of begin less due at most ${goal} ms and none missed: ${verdict}`;
}

/** Cues missed, residual and memory of each hour since the first cue. */
function hourLines({ matched, missedMs, memory }: Heard): string[] {
  const { residualMs } = fitDrift(matched);
  const start = Math.min(...matched.map(({ dueMs }) => dueMs), ...missedMs);
  const hourOf = (atMs: number) => Math.max(0, Math.floor((atMs - start) / hourMs));
  const centre = spreadOf(residualMs).constant;
  const last = Math.max(0, ...matched.map(({ dueMs }) => hourOf(dueMs)));
  return Array.from({ length: last + 1 }, (_, hour) => {
    const away = residualMs.filter((_each, at) => hourOf(matched[at]?.dueMs ?? start) === hour);
    const worst = Math.max(0, ...away.map((each) => Math.abs(each - centre)));
    const missed = missedMs.filter((due) => hourOf(due) === hour).length;
    const held = memory.filter(({ atMs }) => hourOf(atMs) === hour).map(({ mb }) => mb.toFixed(0));
    return `  hour ${hour + 1}: ${away.length} cues heard, missed ${missed}, worst residual ${ms(worst)}, memory ${held.join(", ")} MB`;
  });
}

function sleepLine(
  { sleepsMs }: Case,
  sleptThrough: number,
  ofStops: number,
  lateMs: readonly number[],
): string {
  const seconds = sleepsMs.map((sleepMs) => sleepMs / 1000).join(", ");
  return (
    `  app and browser stopped for ${seconds} s; ${sleptThrough} cues fell into that and were not to sound; ` +
    `of sounds that the device held then, ${ofStops} pieces were heard at the stop or on waking` +
    (lateMs.length === 0 ? "" : `; due just on waking and late by ${lateMs.map(ms).join(", ")}`)
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

if (hours !== null && !(hours > 0 && hours <= mostHours)) {
  refuse(`--hours takes a number up to ${mostHours}: a session lasts three hours at most.`);
}
const missing = missingTools();
if (missing.length > 0) {
  refuse(
    `The sound bench needs these, and installs nothing itself: ${missing.join(", ")}. ` +
      "On Debian: apt-get install xvfb openbox pulseaudio pulseaudio-utils procps chromium.",
  );
}
if (!options.player && !appIsBuilt) refuse("The app is not built. Run: npm run build");
const chosen = rows
  // What the app does about a sleep is the conductor's; the chime player alone has none.
  .map((row) => row.filter((which) => !options.player || which !== slept))
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
