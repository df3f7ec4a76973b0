import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { plannedCues } from "../../../electron/services/live/live-session.ts";
import { pausingGapMs } from "../../../electron/services/live/sleep-watch.ts";
import { openStore } from "../../../electron/store/store.ts";
import { firstPlan, type PlanSettings } from "../../../shared/plan/plan.ts";
import type { SessionEvent } from "../../../shared/session/event.ts";
import { type Browser, memoryOf, type Page, pause, putToSleep } from "./rig.ts";
import type { CueOrder, CueRecord, Sounding, SoundSource } from "./sound-source.ts";

const program = fileURLToPath(new URL("../../../dist/electron/loopback.js", import.meta.url));

/** Whether there is a built app to measure. */
export const appIsBuilt = existsSync(program);

/**
 * The built app: its desktop side as a process of its own on a fresh data folder, its page in the
 * browser. A teacher's press starts a session; afterwards plan, log and seed are read from the store.
 */
export const appSource: SoundSource = async (browser, order): Promise<Sounding> => {
  const folder = mkdtempSync(join(tmpdir(), "sound-bench-data-"));
  const plan = planFor(order);
  prepare(folder, plan);
  const app = spawn(process.execPath, [program, "--data", folder, "--quiet"], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  const killApp = () => app.kill();
  process.once("exit", killApp);
  const close = () => {
    killApp();
    process.off("exit", killApp);
    rmSync(folder, { recursive: true, force: true });
  };
  const page = await openSession(browser, app).catch((error: unknown) => {
    close();
    throw error;
  });
  let endMs = performance.now() + plan.lengthSeconds * 1000 + 4000;
  return {
    page,
    async sleep(ms) {
      // After a short sleep the session runs on; after a long one it waits for its teacher.
      const waits = ms > pausingGapMs;
      if (waits) endMs += ms;
      const sleep = await putToSleep([browser.process, app], ms);
      if (waits) {
        await pressButton(page, goOnButton);
        endMs += performance.now() - sleep.wokeMs;
      }
      return sleep;
    },
    async finish() {
      while (performance.now() < endMs) await pause(500);
      app.kill("SIGTERM");
      await new Promise((resolve) => app.once("close", resolve));
      return readRecord(folder);
    },
    memoryMb: () => memoryOf([browser.process, app]),
    close,
  };
};

/** Quiet before the end, in seconds. */
const endMarginSeconds = 3;

/** A plan with gaps spread evenly over the asked range, long enough for that many cues. */
function planFor({ cues, gapMs: [shortest, longest], quietMs }: CueOrder): PlanSettings {
  const meanSeconds = (shortest + longest) / 2000;
  const leadInSeconds = Math.round(quietMs / 1000);
  // Three standard deviations of what so many gaps add up to.
  const spare = Math.ceil(0.3 * Math.sqrt(cues));
  return {
    ...firstPlan,
    law: "uniform",
    meanSeconds,
    shortestGapSeconds: shortest / 1000,
    leadInSeconds,
    // The chime of the end must not ring into the last cue's, where it would pass for a second one.
    endMarginSeconds,
    lengthSeconds: Math.max(
      60,
      Math.ceil(leadInSeconds + (cues + spare) * meanSeconds + endMarginSeconds),
    ),
    fewestCues: 0,
    chime: "bell",
    volume: 1,
    recording: "paper",
  };
}

function prepare(folder: string, settings: PlanSettings): void {
  const store = openStore({ folder, now: Date.now });
  const group = store.groups.create({ name: "Bench", target: "", isSample: false }, Date.now());
  store.students.add(group.id, ["A"], Date.now());
  store.plans.create({ groupId: group.id, name: "Bench", settings }, Date.now());
  store.settings.save({ soundChecked: true });
  store.close();
}

function addressOf(app: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let text = "";
    // Read to the end: the app fails when nobody takes what it says.
    app.stdout?.on("data", (piece) => {
      text += String(piece);
      const address = /http:\/\/\S+/.exec(text)?.[0];
      if (address !== undefined) resolve(address);
    });
    app.once("close", () => reject(new Error("The app ended without saying where it is.")));
  });
}

async function openSession(browser: Browser, app: ChildProcess): Promise<Page> {
  const page = await browser.open(await addressOf(app));
  await startSession(page);
  return page;
}

/** The press that starts a session also unlocks sound. */
async function startSession(page: Page): Promise<void> {
  await pressButton(page, "document.querySelector('.today-group .button-large:not([disabled])')");
  await pressButton(page, labelled("Start the session"));
  await waitFor(page, "location.pathname.startsWith('/session/')");
}

const labelled = (label: string): string =>
  `[...document.querySelectorAll('button:not([disabled])')].find(({ innerText }) => innerText.trim() === '${label}')`;
const goOnButton = labelled("Go on");

/** Presses the button that this expression finds, once it is there, with a real press. */
async function pressButton(page: Page, button: string): Promise<void> {
  const place = await waitFor(
    page,
    `((found) => {
      found?.scrollIntoView({ block: "center", behavior: "instant" });
      const box = found?.getBoundingClientRect();
      return box && [box.x + box.width / 2, box.y + box.height / 2];
    })(${button})`,
  );
  if (!Array.isArray(place)) throw new Error(`There is nothing to press: ${button}`);
  await page.click(Number(place[0]), Number(place[1]));
}

async function waitFor(page: Page, expression: string): Promise<unknown> {
  for (let turn = 0; turn < 150; turn++) {
    const seen = await page.evaluate(expression).catch(() => null);
    if (seen) return seen;
    await pause(100);
  }
  throw new Error(`The app's page did not get there within 15 seconds: ${expression}`);
}

/**
 * The wall clock, in ms, of the session's zero as it stood for each cue that has events: each event says
 * session time and wall clock, and a pause moves the one against the other.
 */
function zeroOfEachCue(events: readonly SessionEvent[]): Map<number, number> {
  const stretches: { zeros: number[]; cues: number[] }[] = [{ zeros: [], cues: [] }];
  for (const { body, stamp } of events) {
    if (body.kind === "resumed") stretches.push({ zeros: [], cues: [] });
    if (body.kind !== "delivered" && body.kind !== "announced") continue;
    stretches.at(-1)?.zeros.push(stamp.wallMs - stamp.atMs);
    stretches.at(-1)?.cues.push(body.cue);
  }
  return new Map(
    stretches.flatMap(({ zeros, cues }) => {
      const zeroMs = zeros.sort((one, other) => one - other)[Math.floor(zeros.length / 2)] ?? 0;
      return cues.map((cue) => [cue, zeroMs] as const);
    }),
  );
}

function readRecord(folder: string): CueRecord {
  const store = openStore({ folder, now: Date.now });
  try {
    const session = store.sessions.list(null, 1)[0];
    if (session === undefined) throw new Error("The app kept no session.");
    const events = store.log.read(session.id, 0);
    const zeros = zeroOfEachCue(events);
    // A cue without any event was missed; its time counts as that of the cue before it.
    let zeroMs = session.startedMs;
    const plannedMs = plannedCues(session).map((ms, index) => {
      zeroMs = zeros.get(index + 1) ?? zeroMs;
      return zeroMs - performance.timeOrigin + ms;
    });
    const beganMs: number[] = [];
    const failures: string[] = [];
    const slept = new Set<number>();
    for (const { body } of events) {
      if (body.kind === "undelivered" && body.reason === "asleep") slept.add(body.cue);
      else if (body.kind === "undelivered") failures.push(body.reason);
      if (body.kind !== "delivered") continue;
      if (body.problem !== null) failures.push(body.problem);
      else beganMs.push((plannedMs[body.cue - 1] ?? Number.NaN) + (body.latenessMs ?? 0));
    }
    const dueMs = plannedMs.filter((_, index) => !slept.has(index + 1));
    return { dueMs, sleptThrough: slept.size, beganMs, failures };
  } finally {
    store.close();
  }
}
