import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { plannedCues } from "../../../electron/services/conductor.ts";
import { openStore } from "../../../electron/store/store.ts";
import { firstPlan, type PlanSettings } from "../../../shared/plan/plan.ts";
import type { Browser, Page } from "./rig.ts";
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
  return {
    page,
    async finish() {
      await new Promise((resolve) => setTimeout(resolve, plan.lengthSeconds * 1000 + 4000));
      app.kill("SIGTERM");
      await new Promise((resolve) => app.once("close", resolve));
      return readRecord(folder);
    },
    close,
  };
};

/** Quiet before the end, in seconds. */
const endMarginSeconds = 3;

/** A plan with gaps spread evenly over the asked range, long enough for that many cues. */
function planFor({ cues, gapMs: [shortest, longest], quietMs }: CueOrder): PlanSettings {
  const meanSeconds = (shortest + longest) / 2000;
  const leadInSeconds = Math.round(quietMs / 1000);
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
      Math.ceil(leadInSeconds + (cues + 3) * meanSeconds + endMarginSeconds),
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

/** Presses start with a real press, which also unlocks sound. */
async function startSession(page: Page): Promise<void> {
  const button = "document.querySelector('.today-start button:not([disabled])')";
  const place = await waitFor(
    page,
    `${button} && (({ x, y, width, height }) =>
    [x + width / 2, y + height / 2])(${button}.getBoundingClientRect())`,
  );
  if (!Array.isArray(place)) throw new Error("There is no button to start a session with.");
  await page.click(Number(place[0]), Number(place[1]));
  await waitFor(page, "location.pathname.startsWith('/session/')");
}

async function waitFor(page: Page, expression: string): Promise<unknown> {
  for (let turn = 0; turn < 150; turn++) {
    const seen = await page.evaluate(expression).catch(() => null);
    if (seen) return seen;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`The app's page did not get there within 15 seconds: ${expression}`);
}

function readRecord(folder: string): CueRecord {
  const store = openStore({ folder, now: Date.now });
  try {
    const session = store.sessions.list(null, 1)[0];
    if (session === undefined) throw new Error("The app kept no session.");
    const events = store.log.read(session.id, 0);
    // Each event says session time and wall clock; together they place the session's zero.
    const zeros = events
      .filter(({ body }) => body.kind === "delivered" || body.kind === "announced")
      .map(({ stamp }) => stamp.wallMs - stamp.atMs)
      .sort((one, other) => one - other);
    const zeroMs = zeros[Math.floor(zeros.length / 2)] ?? session.startedMs;
    const startedMs = zeroMs - performance.timeOrigin;
    const dueMs = plannedCues(session).map((ms) => startedMs + ms);
    const beganMs: number[] = [];
    const failures: string[] = [];
    for (const { body } of events) {
      if (body.kind === "undelivered") failures.push(body.reason);
      if (body.kind !== "delivered") continue;
      if (body.problem !== null) failures.push(body.problem);
      else beganMs.push((dueMs[body.cue - 1] ?? Number.NaN) + (body.latenessMs ?? 0));
    }
    return { dueMs, beganMs, failures };
  } finally {
    store.close();
  }
}
