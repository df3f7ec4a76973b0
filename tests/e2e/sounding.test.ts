import { execFile } from "node:child_process";
import { setTimeout as pause } from "node:timers/promises";
import { promisify } from "node:util";
import type { Page } from "playwright";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openStore } from "../../electron/store/store.ts";
import { firstPlan, type PlanSettings } from "../../shared/plan/plan.ts";
import { type HostedApp, hosts } from "./support/hosts.ts";
import { launchApp, launchLoopback, openBrowser } from "./support/launch.ts";
import { openedBy } from "./support/one-app.ts";
import { built } from "./support/programs.ts";
import { button, link } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const args = ["--speed", "2"];
/** A cue every six real seconds. */
const everyTwelve = { law: "fixed", meanSeconds: 12, shortestGapSeconds: 0 } as const;
const oneCueMs = 6_000;

let temporary: ReturnType<typeof temporaryFolder>;
let running: { kill(): Promise<unknown> } | null = null;

beforeEach(() => {
  temporary = temporaryFolder();
});

afterEach(async () => {
  await running?.kill();
  running = null;
  temporary.remove();
});

/** Puts one class into the data folder, whose cues sound. */
function classOfTwo(plan: Partial<PlanSettings> = {}): string {
  const store = openStore({ folder: temporary.path, now: Date.now });
  try {
    const nowMs = Date.now() - 60_000;
    const group = store.groups.create({ name: "Room 12", target: "", isSample: false }, nowMs);
    store.students.add(group.id, ["Ash", "Birch"], nowMs);
    const ways = { cueing: "sound", recording: "paper" } as const;
    const own = { fewestCues: 0, lengthSeconds: 600 };
    const settings = { ...firstPlan, ...everyTwelve, ...own, ...ways, ...plan };
    store.plans.create({ groupId: group.id, name: "Every twelve", settings }, nowMs);
    store.settings.save({ soundChecked: true });
  } finally {
    store.close();
  }
  return temporary.path;
}

/** A cue that is settled: its means, or why it reached nobody; and when it came or was due, by the clock on the wall. */
interface Settled {
  readonly cue: number;
  readonly how: string;
  readonly atMs: number;
}

/** So long after its moment a cue of which nobody reported is written off, in ms. */
const writtenOffMs = 3_000;

/** Ends the app, which would ask before it closes, and says what its log has of each cue that is settled. */
async function settled(): Promise<Settled[]> {
  await running?.kill();
  running = null;
  const store = openStore({ folder: temporary.path, now: Date.now });
  try {
    const [session] = store.sessions.list(null, 1);
    return store.log.read(session?.id ?? "", 0).flatMap(({ body, stamp }): Settled[] => {
      if (body.kind === "delivered") return [{ cue: body.cue, how: body.by, atMs: stamp.wallMs }];
      if (body.kind !== "undelivered") return [];
      const since = body.reason === "no-report" ? writtenOffMs : 0;
      return [{ cue: body.cue, how: body.reason, atMs: stamp.wallMs - since }];
    });
  } finally {
    store.close();
  }
}

const logged = async (): Promise<string[]> => (await settled()).map(({ how }) => how);

/**
 * Times in which a page is there and nothing happens to it: each cue in them has to sound. One that is due
 * while pages come and go may be shown instead, or reach nobody, which the log then says.
 */
function quietTimes() {
  /** A page that has just come loads its chime, and other pages may come first, in ms. */
  const settlingMs = 2_500;
  const times: { readonly fromMs: number; readonly toMs: number }[] = [];
  return {
    /** Waits until at least one cue has come in quiet. */
    async pass() {
      await pause(settlingMs);
      const fromMs = Date.now();
      await pause(oneCueMs + 500);
      times.push({ fromMs, toMs: Date.now() });
    },
    /** What the log must say: one verdict a cue, and in each of the quiet times cues that sounded, nothing else. */
    hold(cues: readonly Settled[]) {
      const numbers = cues.map(({ cue }) => cue);
      expect(numbers).toEqual([...new Set(numbers)]);
      for (const { fromMs, toMs } of times) {
        const within = cues.filter(({ atMs }) => atMs > fromMs && atMs < toMs);
        expect([...new Set(within.map(({ how }) => how))]).toEqual(["sound"]);
      }
    },
  };
}

/** One more start with the same data gives one more address of the app that runs. */
async function freshAddress(): Promise<string> {
  const words = [built("loopback.js"), "--quiet", "--data", temporary.path];
  const { stdout } = await promisify(execFile)(process.execPath, words);
  return /http:\/\/\S+/.exec(stdout)?.[0] ?? "";
}

/** Starts the session; returns its page's address. */
async function start(page: Page): Promise<string> {
  await button(page, "Start a session with Room 12").click();
  await button(page, "Start the session").click();
  await page.waitForURL(/\/session\//);
  await page.getByRole("region", { name: "Teacher's strip" }).waitFor();
  return page.url();
}

/** Has a page's sound wait for a press, as browsers do until there is one. */
function waitForPress() {
  let isPressed = false;
  const { resume } = AudioContext.prototype;
  const real = Object.getOwnPropertyDescriptor(BaseAudioContext.prototype, "state");
  AudioContext.prototype.resume = function () {
    return isPressed ? resume.call(this) : new Promise(() => {});
  };
  Object.defineProperty(BaseAudioContext.prototype, "state", {
    get(this: AudioContext) {
      return isPressed ? real?.get?.call(this) : "suspended";
    },
  });
  const press = () => {
    isPressed = true;
  };
  window.addEventListener("click", press, true);
}

const notShown = "The cues of the running session are not shown anywhere";
const unheard = "The cues of the running session cannot be heard";

describe.each(hosts)("A running session $name", ({ launch }) => {
  const open = async (folder: string): Promise<{ app: HostedApp; page: Page }> => {
    const app = await launch({ dataFolder: folder, args });
    running = app;
    return { app, page: await app.page() };
  };

  it("sounds on every page, also when that page is loaded again", async () => {
    const { page } = await open(classOfTwo());
    const session = await start(page);
    const quiet = quietTimes();
    for (const name of ["Today", "Groups", "Progress", "Settings"]) {
      await link(page, name).first().click();
      await page.reload();
      await page.getByRole("heading", { level: 1 }).first().waitFor();
      await quiet.pass();
      expect(await page.getByText(unheard).count()).toBe(0);
    }
    await page.goto(session);
    await page.reload();
    await page.getByRole("region", { name: "Teacher's strip" }).waitFor();
    await quiet.pass();
    quiet.hold(await settled());
  }, 180_000);

  it("is sounded by one of two windows, and by the other when that one is closed", async () => {
    const { app, page } = await open(classOfTwo());
    await start(page);
    const second = await openSecond(app, page);
    await pause(2 * oneCueMs);
    await second.close();
    await pause(oneCueMs + 500);
    const cues = await logged();
    expect(cues.length).toBeGreaterThanOrEqual(2);
    expect(new Set(cues)).toEqual(new Set(["sound"]));
  }, 120_000);
});

/** The tiles in a window of their own in the shell; in a browser any page of the app. */
async function openSecond(app: HostedApp, page: Page): Promise<Page> {
  if ("context" in app) return openedBy(page, "/groups");
  const opened = page.context().waitForEvent("page");
  await button(page, "Board in its own window").click();
  return opened;
}

describe("In a browser, a running session", () => {
  const open = async (plan: Partial<PlanSettings> = {}) => {
    const app = await launchLoopback({ dataFolder: classOfTwo(plan), args });
    running = app;
    return { app, page: await app.page() };
  };

  it("whose window was closed is sounded by the next one; what came meanwhile reached nobody", async () => {
    const { app, page } = await open();
    await start(page);
    await pause(oneCueMs);
    // Kept open so that the browser is not gone with its last page.
    await app.context.newPage();
    await page.close();
    await pause(2 * oneCueMs);
    const after = await app.context.newPage();
    await after.goto(await freshAddress());
    await after.getByRole("heading", { level: 1 }).first().waitFor();
    await pause(2 * oneCueMs);
    const cues = await logged();
    expect(new Set(cues)).toEqual(new Set(["sound", "no-window"]));
    expect([cues[0], cues.at(-1)]).toEqual(["sound", "sound"]);
    expect(cues.join(" ")).toMatch(/^(sound )+(no-window )+sound( sound)*$/);
  }, 120_000);

  it("is sounded by the window that stays when the one that sounded it is closed or crashes", async () => {
    const { app, page } = await open();
    await start(page);
    const quiet = quietTimes();
    const second = await openedBy(page, "/groups");
    await second.getByRole("heading", { level: 1 }).first().waitFor();
    await quiet.pass();
    await page.close();
    await quiet.pass();
    // A tab of its own: one that another page opens lives in that one's process, and goes down with it.
    const third = await app.context.newPage();
    await third.goto(await freshAddress());
    await third.getByRole("heading", { level: 1 }).first().waitFor();
    await quiet.pass();
    const crashed = second.waitForEvent("crash");
    void second.goto("chrome://crash").catch(() => undefined);
    await crashed;
    await quiet.pass();
    quiet.hold(await settled());
  }, 120_000);

  it("is sounded by a fresh browser after the first one was killed", async () => {
    const { page } = await open();
    await start(page);
    await page.context().browser()?.close();
    await pause(oneCueMs);
    const browser = await openBrowser();
    try {
      const again = await browser.newPage();
      await again.goto(await freshAddress());
      await again.getByRole("heading", { level: 1 }).first().waitFor();
      await pause(2 * oneCueMs);
      const cues = await logged();
      expect(cues).toContain("no-window");
      expect(cues.at(-1)).toBe("sound");
    } finally {
      await browser.close();
    }
  }, 120_000);

  it.each(["/", "/groups", "/progress", "/settings"])(
    "that may not sound is said at once and large on %s, with one button that turns it on",
    async (path) => {
      const { app, page } = await open();
      await start(page);
      await app.context.addInitScript(waitForPress);
      await page.goto(new URL(path, page.url()).href);
      const loaded = Date.now();
      await page.getByText(unheard).waitFor();
      expect(Date.now() - loaded).toBeLessThan(2_000);
      const title = page.locator(".cues-lost-title");
      const size = await title.evaluate((each) =>
        Number.parseFloat(getComputedStyle(each).fontSize),
      );
      expect(size).toBeGreaterThanOrEqual(24);
      await button(page, "Turn sound on").click();
      await page.getByText(unheard).waitFor({ state: "hidden" });
      await pause(oneCueMs + 1_000);
      expect((await logged()).at(-1)).toBe("sound");
    },
    60_000,
  );

  it("whose silent cues nobody can see is said, with the way to show them", async () => {
    const { page } = await open({ cueing: "silent" });
    await start(page);
    await link(page, "Groups").first().click();
    await page.getByText(notShown).waitFor();
    await link(page, "Show the cues").click();
    await pause(oneCueMs + 500);
    expect((await logged()).at(-1)).toBe("sight");
  }, 60_000);

  it("whose silent cues another window shows leaves this one to the teacher, and says when it shows them no more", async () => {
    const { page } = await open({ cueing: "silent" });
    await start(page);
    const teachers = page.getByRole("button", { name: "Teacher’s view", exact: true });
    // Alone it has to show the cues itself.
    await page.getByRole("region", { name: "Class board" }).waitFor();
    expect(await teachers.count()).toBe(0);
    const opening = page.waitForEvent("popup");
    await button(page, "Board in its own window").click();
    const board = await opening;
    await board.getByRole("heading", { name: "Class board" }).waitFor({ state: "attached" });
    await teachers.click();
    await page.getByRole("region", { name: "Teacher’s view" }).waitFor();
    const fromMs = Date.now() + 1_000;
    await board.getByText("Was I working just now?").waitFor();
    await pause(oneCueMs + 1_000);
    const untilMs = Date.now();
    expect(await page.getByText(notShown).count()).toBe(0);

    await board.close();
    await page.getByText(notShown).waitFor();
    const aloneMs = Date.now();
    await pause(oneCueMs + 2_000);
    const shownMs = Date.now();
    await button(page, "Show the cues here").click();
    await page.getByText(notShown).waitFor({ state: "hidden" });
    await pause(oneCueMs + 2_000);
    const cues = await settled();
    const between = (from: number, to: number) =>
      new Set(cues.filter(({ atMs }) => atMs > from && atMs < to).map(({ how }) => how));
    expect(between(fromMs, untilMs)).toEqual(new Set(["sight"]));
    // The sign on the strip is the teacher's alone.
    expect(between(aloneMs, shownMs)).toEqual(new Set(["sound-failed"]));
    expect(cues.at(-1)?.how).toBe("sight");
  }, 90_000);

  it("asks before its last window is closed, and before no other", async () => {
    const { page } = await open();
    await start(page);
    const second = await openedBy(page, "/groups");
    await second.getByRole("heading", { level: 1 }).first().click();
    await pause(500);
    await second.close({ runBeforeUnload: true });
    await expect.poll(() => second.isClosed()).toBe(true);
    await pause(500);
    const asked = page.waitForEvent("dialog");
    await page.close({ runBeforeUnload: true });
    const dialog = await asked;
    expect(dialog.type()).toBe("beforeunload");
    await dialog.dismiss();
    await button(page, "End").first().click();
    await button(page, "End it").click();
    await page.getByRole("heading", { name: "The session is over" }).waitFor();
    await page.close({ runBeforeUnload: true });
    await expect.poll(() => page.isClosed()).toBe(true);
  }, 60_000);
});

describe("In the desktop shell, a running session", () => {
  it("sounds again after its page has crashed", async () => {
    const app = await launchApp({ dataFolder: classOfTwo(), args });
    running = app;
    const page = await app.page();
    await start(page);
    await link(page, "Groups").first().click();
    await pause(oneCueMs);
    await app.evaluate(async ({ BrowserWindow }) => {
      const [window] = BrowserWindow.getAllWindows();
      if (!window) throw new Error("No window.");
      const again = new Promise<null>((resolve) =>
        window.webContents.once("did-finish-load", () => resolve(null)),
      );
      window.webContents.forcefullyCrashRenderer();
      await again;
    }, null);
    await pause(2 * oneCueMs);
    const cues = await logged();
    expect([cues[0], cues.at(-1)]).toEqual(["sound", "sound"]);
  }, 120_000);
});
