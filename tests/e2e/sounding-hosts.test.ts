import { setTimeout as pause } from "node:timers/promises";
import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { type HostedApp, hosts } from "./support/hosts.ts";
import { type App, launchApp } from "./support/launch.ts";
import { openedBy } from "./support/one-app.ts";
import {
  args,
  oneCueMs,
  quietTimes,
  soundingClass,
  startSession,
} from "./support/sounding-class.ts";
import { button, link } from "./support/steps.ts";

const ofTwo = soundingClass();
const unheard = "The cues of the running session cannot be heard";

describe.each(hosts)("A running session $name", ({ launch }) => {
  const open = async (folder: string): Promise<{ app: HostedApp; page: Page }> => {
    const app = await launch({ dataFolder: folder, args });
    ofTwo.runs(app);
    return { app, page: await app.page() };
  };

  it("sounds on every page, also when that page is loaded again", async () => {
    const { page } = await open(ofTwo.make());
    const session = await startSession(page);
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
    await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
    await quiet.pass();
    quiet.hold(await ofTwo.settled());
  }, 180_000);

  it("is sounded by one of two windows, and by the other when that one is closed", async () => {
    const { app, page } = await open(ofTwo.make());
    await startSession(page);
    const second = await openSecond(app, page);
    await pause(2 * oneCueMs);
    await second.close();
    await pause(oneCueMs + 500);
    const cues = await ofTwo.logged();
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

describe("In the desktop shell, a running session", () => {
  const open = async (folder: string): Promise<{ app: App; page: Page }> => {
    const app = await launchApp({ dataFolder: folder, args });
    ofTwo.runs(app);
    return { app, page: await app.page() };
  };

  it("is said to be cut off within two seconds when its window was closed and the app is opened again, and sounds on from there", async () => {
    const folder = ofTwo.make();
    const { app, page } = await open(folder);
    await startSession(page);
    const quiet = quietTimes();
    await quiet.pass();
    await app.evaluate((electron) => {
      // The app asks before it closes in mid-session; whoever closes it all the same says so.
      electron.dialog.showMessageBox = async () => ({ response: 1, checkboxChecked: false });
      electron.BrowserWindow.getAllWindows()[0]?.close();
    }, null);
    expect(await app.ended).toBe(0);
    await pause(2 * oneCueMs);

    const begunMs = Date.now();
    const again = await open(folder);
    await again.page.getByRole("heading", { level: 1 }).first().waitFor();
    const openedMs = Date.now();
    await again.page.getByText("A session with Room 12 was cut off after").waitFor();
    // Two seconds, or as long as the app itself took to come on a busy machine.
    expect(Date.now() - openedMs).toBeLessThan(Math.max(2_000, openedMs - begunMs));
    await button(again.page, "Resume").click();
    await again.page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
    await quiet.pass();
    const cues = await ofTwo.settled();
    quiet.hold(cues);
    // None was passed over in silence: each has its verdict, and one that came meanwhile reached nobody.
    expect(cues.map(({ cue }) => cue)).toEqual(cues.map((_, index) => index + 1));
    const hows = new Set(cues.map(({ how }) => how));
    expect(hows.has("sight")).toBe(false);
    expect([cues[0]?.how, cues.at(-1)?.how]).toEqual(["sound", "sound"]);
  }, 120_000);

  it("sounds again after its page has crashed", async () => {
    const { app, page } = await open(ofTwo.make());
    await startSession(page);
    const quiet = quietTimes();
    await link(page, "Groups").first().click();
    await quiet.pass();
    await app.evaluate(async ({ BrowserWindow }) => {
      const [window] = BrowserWindow.getAllWindows();
      if (!window) throw new Error("No window.");
      const again = new Promise<null>((resolve) =>
        window.webContents.once("did-finish-load", () => resolve(null)),
      );
      window.webContents.forcefullyCrashRenderer();
      await again;
    }, null);
    await quiet.pass();
    const cues = await ofTwo.settled();
    quiet.hold(cues);
    expect(cues.map(({ cue }) => cue)).toEqual(cues.map((_, index) => index + 1));
  }, 120_000);
});
