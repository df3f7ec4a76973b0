import { execFile } from "node:child_process";
import { setTimeout as pause } from "node:timers/promises";
import { promisify } from "node:util";
import { describe, expect, it } from "vitest";
import type { PlanSettings } from "../../shared/plan/plan.ts";
import { launchLoopback, openBrowser } from "./support/launch.ts";
import { openedBy } from "./support/one-app.ts";
import { built } from "./support/programs.ts";
import {
  args,
  oneCueMs,
  quietTimes,
  soundingClass,
  startSession,
} from "./support/sounding-class.ts";
import { button, link } from "./support/steps.ts";

const ofTwo = soundingClass();

/** One more start with the same data gives one more address of the app that runs. */
async function freshAddress(): Promise<string> {
  const words = [built("loopback.js"), "--quiet", "--data", ofTwo.folder()];
  const { stdout } = await promisify(execFile)(process.execPath, words);
  return /http:\/\/\S+/.exec(stdout)?.[0] ?? "";
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

describe("In a browser, a running session", () => {
  const open = async (plan: Partial<PlanSettings> = {}) => {
    const app = await launchLoopback({ dataFolder: ofTwo.make(plan), args });
    ofTwo.runs(app);
    return { app, page: await app.page() };
  };

  it("whose window was closed is sounded by the next one; what came meanwhile reached nobody", async () => {
    const { app, page } = await open();
    await startSession(page);
    await pause(oneCueMs);
    // Kept open so that the browser is not gone with its last page.
    await app.context.newPage();
    await page.close();
    await pause(2 * oneCueMs);
    const after = await app.context.newPage();
    await after.goto(await freshAddress());
    await after.getByRole("heading", { level: 1 }).first().waitFor();
    await pause(2 * oneCueMs);
    const cues = await ofTwo.logged();
    expect(new Set(cues)).toEqual(new Set(["sound", "no-window"]));
    expect([cues[0], cues.at(-1)]).toEqual(["sound", "sound"]);
    expect(cues.join(" ")).toMatch(/^(sound )+(no-window )+sound( sound)*$/);
  }, 120_000);

  it("is sounded by the window that stays when the one that sounded it is closed or crashes", async () => {
    const { app, page } = await open();
    await startSession(page);
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
    quiet.hold(await ofTwo.settled());
  }, 120_000);

  it("is sounded by a fresh browser after the first one was killed", async () => {
    const { page } = await open();
    await startSession(page);
    await page.context().browser()?.close();
    await pause(oneCueMs);
    const browser = await openBrowser();
    try {
      const again = await browser.newPage();
      await again.goto(await freshAddress());
      await again.getByRole("heading", { level: 1 }).first().waitFor();
      await pause(2 * oneCueMs);
      const cues = await ofTwo.logged();
      expect(cues).toContain("no-window");
      expect(cues.at(-1)).toBe("sound");
    } finally {
      await browser.close();
    }
  }, 120_000);

  it.each(["/", "/groups", "/progress", "/settings"])(
    "that may not sound is said at once and large on %s, with one button that turns it on",
    async (path) => {
      const { page } = await open();
      await startSession(page);
      await page.addInitScript(waitForPress);
      const begun = Date.now();
      await page.goto(new URL(path, page.url()).href);
      const loaded = Date.now();
      await page.getByText(unheard).waitFor();
      // Two seconds, or twice what the page itself took to come on a busy machine.
      expect(Date.now() - loaded).toBeLessThan(Math.max(2_000, 2 * (loaded - begun)));
      const title = page.locator(".cues-lost-title");
      const size = await title.evaluate((each) =>
        Number.parseFloat(getComputedStyle(each).fontSize),
      );
      expect(size).toBeGreaterThanOrEqual(24);
      await button(page, "Turn sound on").click();
      await page.getByText(unheard).waitFor({ state: "hidden" });
      await pause(oneCueMs + 1_000);
      expect((await ofTwo.logged()).at(-1)).toBe("sound");
    },
    60_000,
  );

  it("whose silent cues nobody can see is said, with the way to show them", async () => {
    const { page } = await open({ cueing: "silent" });
    await startSession(page);
    await link(page, "Groups").first().click();
    await page.getByText(notShown).waitFor();
    await link(page, "Show the cues").click();
    await pause(oneCueMs + 500);
    expect((await ofTwo.logged()).at(-1)).toBe("sight");
  }, 60_000);

  it("whose silent cues another window shows leaves this one to the teacher, and says when it shows them no more", async () => {
    const { page } = await open({ cueing: "silent" });
    await startSession(page);
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
    const cues = await ofTwo.settled();
    const between = (from: number, to: number) =>
      new Set(cues.filter(({ atMs }) => atMs > from && atMs < to).map(({ how }) => how));
    expect(between(fromMs, untilMs)).toEqual(new Set(["sight"]));
    // The sign on the strip is the teacher's alone.
    expect(between(aloneMs, shownMs)).toEqual(new Set(["sound-failed"]));
    expect(cues.at(-1)?.how).toBe("sight");
  }, 90_000);

  it("asks before its last window is closed, and before no other", async () => {
    const { page } = await open();
    await startSession(page);
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
