import type { Page } from "playwright";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openStore } from "../../electron/store/store.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import { axeFindings } from "./support/axe.ts";
import {
  type App,
  type LoopbackApp,
  launchApp,
  launchLoopback,
  waitFor,
} from "./support/launch.ts";
import { answerOnTile } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

/** So many times faster than real: a cue every ten seconds under the plan below. */
const args = ["--speed", "6"];
const names = ["Ash", "Birch", "Cedar", "Dill"];
const code = "4711";

let data: ReturnType<typeof temporaryFolder>;
beforeEach(() => {
  data = temporaryFolder();
  const store = openStore({ folder: data.path, now: Date.now });
  const nowMs = Date.now() - 60_000;
  const group = store.groups.create({ name: "Room 12", target: "", isSample: false }, nowMs);
  store.students.add(group.id, names, nowMs);
  const settings = { ...firstPlan, law: "fixed", meanSeconds: 60, cueing: "silent" } as const;
  store.plans.create({ groupId: group.id, name: "Each minute", settings }, nowMs);
  store.close();
});
afterEach(() => data.remove());

const button = (page: Page, name: string) => page.getByRole("button", { name, exact: true });
const tile = (page: Page, name: string) => page.getByRole("group", { name, exact: true });
const yes = (page: Page, name: string) => button(page, `${name}: yes, I was working`);

async function startSession(page: Page): Promise<void> {
  await button(page, "Start a session with Room 12").click();
  await button(page, "Start the session").click();
  await page.waitForURL(/\/session\//);
  await button(page, "Class screen").waitFor();
}

async function setCode(page: Page): Promise<void> {
  await page.getByRole("link", { name: "Settings" }).click();
  await page.getByLabel("Code, 4 to 8 digits").fill(code);
  await button(page, "Set the code").click();
  await page.getByText("A code is set.").waitFor();
  await page.getByRole("link", { name: "Today" }).first().click();
}

/** All that stands on the class screen: tiles, and nothing of the adult's. */
async function showsTilesOnly(page: Page): Promise<void> {
  for (const name of names) await tile(page, name).waitFor();
  expect(await page.getByRole("navigation").count()).toBe(0);
  expect(await page.getByRole("link").count()).toBe(0);
  expect(await page.getByRole("region", { name: "Teacher’s strip" }).count()).toBe(0);
  for (const name of ["Pause", "Skip next cue", "End", "Interruption", "Check someone"]) {
    expect(await button(page, name).count(), name).toBe(0);
  }
}

async function holdCorner(page: Page, ms: number): Promise<void> {
  const corner = await page.locator(".class-corner").boundingBox();
  if (corner === null) throw new Error("no corner");
  await page.mouse.move(corner.x + corner.width - 4, corner.y + 4);
  await page.mouse.down();
  await page.waitForTimeout(ms);
  await page.mouse.up();
}

async function enterCode(page: Page, digits: string): Promise<void> {
  const pad = page.getByRole("alertdialog", { name: "Your code" });
  for (const digit of digits) await pad.getByRole("button", { name: digit, exact: true }).click();
  await pad.getByRole("button", { name: "Leave" }).click();
}

describe("the class screen in a browser", () => {
  let app: LoopbackApp;
  let page: Page;
  beforeEach(async () => {
    app = await launchLoopback({ dataFolder: data.path, args });
    page = await app.page();
  });
  afterEach(() => app.close());

  it("holds in the same window through addresses, reload, back, Escape, and lets go with the code", async () => {
    await setCode(page);
    await startSession(page);
    const session = page.url();
    const { origin } = new URL(session);
    await button(page, "Class screen").click();
    await page.getByText("Then enter your code.").waitFor();
    await button(page, "On this screen").click();
    await showsTilesOnly(page);
    expect(await page.evaluate(() => document.fullscreenElement !== null)).toBe(true);

    expect(await axeFindings(page)).toEqual([]);

    // A child answers.
    await answerOnTile(page, "Birch", "yes");

    // Whatever a child presses or types, there is nothing else.
    await page.evaluate(() => document.exitFullscreen());
    await page.keyboard.press("Escape");
    await showsTilesOnly(page);
    await page.reload();
    await showsTilesOnly(page);
    const groups = ["/", "/groups", "/progress", "/settings", "/board", "/print/report/a/b"];
    for (const address of [...groups, new URL(session).pathname, "/nowhere", "/#page"]) {
      await page.goto(origin + address);
      await showsTilesOnly(page);
    }
    for (let times = 0; times < 4; times += 1) {
      await page.goBack();
      await showsTilesOnly(page);
    }
    const fresh = await app.context.newPage();
    await fresh.goto(session);
    await fresh.getByRole("heading", { name: "This tab does not have access" }).waitFor();
    expect(await axeFindings(fresh)).toEqual([]);
    await fresh.close();

    // The way out: not by a short press, not by a wrong code, not by staying away.
    await holdCorner(page, 1_000);
    await page.waitForTimeout(2_500);
    expect(await page.getByRole("alertdialog").count()).toBe(0);
    await holdCorner(page, 3_200);
    await enterCode(page, "1234");
    await page.getByText("That is not the code. Try again.").waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await button(page, "Stay").click();
    await showsTilesOnly(page);
    await page.keyboard.press("Control+Alt+Shift+L");
    await page.getByRole("alertdialog", { name: "Your code" }).waitFor();
    await page.keyboard.type(code);
    await page.getByText("4 digits").waitFor({ state: "attached" });
    await button(page, "Leave").click();
    await button(page, "Pause").waitFor();
    expect(page.url()).toBe(session);
    await page.getByRole("link", { name: "Groups" }).click();
    await page.getByRole("link", { name: "Room 12" }).first().waitFor();
  });

  it("opens in a window of its own, so that the adult keeps a view, and shows pause and end plainly", async () => {
    await startSession(page);
    await button(page, "Class screen").click();
    await page.getByText("No code is set.").waitFor();
    const [screen] = await Promise.all([
      app.context.waitForEvent("page"),
      button(page, "In a separate window").click(),
    ]);
    await showsTilesOnly(screen);
    // It never had more: no ticket of its opener's, no way to its opener.
    const held = await screen.evaluate(() => ({
      scope: JSON.parse(sessionStorage.getItem("pebblechime-ticket") ?? "{}").scope,
      opener: window.opener,
    }));
    expect(held).toEqual({ scope: "class", opener: null });
    expect(screen.url()).not.toContain("key");
    await screen.goto(new URL("/groups", page.url()).href);
    await showsTilesOnly(screen);
    await screen.goBack();
    await showsTilesOnly(screen);

    // The adult's window stays the adult's.
    await button(page, "Pause").click();
    await screen.getByText("A short break").waitFor();
    expect(await yes(screen, "Ash").isDisabled()).toBe(true);
    // What has just appeared takes no press for a moment.
    await page.waitForTimeout(700);
    await button(page, "Resume").click();
    await answerOnTile(screen, "Ash", "no");
    await button(page, "End").click();
    await button(page, "End it").click();
    await page.getByRole("heading", { name: "The session is over" }).waitFor();
    // Its last cue still takes marks for a while.
    await screen.getByText("Done. Thank you.").waitFor({ timeout: 30_000 });
    await screen.reload();
    await screen.getByText("No session is running.").waitFor();

    const closed = screen.waitForEvent("close");
    await screen.keyboard.press("Control+Alt+Shift+L").catch(() => undefined);
    await closed;
  });

  it("hands no ticket to the window that it opens, even before that window's page runs", async () => {
    await startSession(page);
    await app.context.route("**/tiles", (route) => route.fulfill({ status: 200, body: "stopped" }));
    await button(page, "Class screen").click();
    const [screen] = await Promise.all([
      app.context.waitForEvent("page"),
      button(page, "In a separate window").click(),
    ]);
    await screen.getByText("stopped").waitFor();
    expect(await screen.evaluate(() => sessionStorage.length)).toBe(0);
    await screen.goto(new URL("/groups", page.url()).href);
    await screen.getByRole("heading", { name: "This tab does not have access" }).waitFor();
  });
});

describe("the class screen in the desktop shell", () => {
  let app: App;
  let page: Page;
  beforeEach(async () => {
    app = await launchApp({ dataFolder: data.path, args });
    page = await app.page();
  });
  afterEach(() => app.kill());

  const classPage = () =>
    waitFor(
      () => app.windows().find((each) => new URL(each.url()).pathname === "/tiles"),
      "the class screen",
    );
  /** What the main process says of its windows, the teacher's first. */
  const windows = () =>
    app.evaluate(
      ({ BrowserWindow }) =>
        BrowserWindow.getAllWindows()
          .toSorted((one, other) => one.id - other.id)
          .map((each) => ({ isVisible: each.isVisible(), isFull: each.isFullScreen() })),
      null,
    );

  it("fills an only display, cannot be closed, opens nothing else, and goes with the way out", async () => {
    await setCode(page);
    await startSession(page);
    await button(page, "Class screen").click();
    await page.getByRole("dialog").getByRole("button", { name: "Class screen" }).click();
    const screen = await classPage();
    await showsTilesOnly(screen);
    expect(await windows()).toEqual([
      { isVisible: false, isFull: false },
      { isVisible: true, isFull: true },
    ]);

    // Closing, leaving the full screen, addresses and reloads lead nowhere.
    await app.evaluate(({ BrowserWindow }) => {
      const [newest] = BrowserWindow.getAllWindows().toSorted((one, other) => other.id - one.id);
      newest?.close();
      newest?.setFullScreen(false);
    }, null);
    expect(await windows()).toHaveLength(2);
    expect((await windows())[1]).toEqual({ isVisible: true, isFull: true });
    for (const address of ["/", "/groups", "/settings", "/tiles"]) {
      await screen.goto(app.address(address));
      await showsTilesOnly(screen);
    }
    await screen.reload();
    await showsTilesOnly(screen);
    const outcomes = await screen.evaluate(async () => [
      (await window.pebblechime?.openWindow({ name: "board" }))?.kind,
      (await window.pebblechime?.savePdf({ name: "x", paper: "A4" }))?.kind,
    ]);
    expect(outcomes).toEqual(["failed", "failed"]);
    expect(await windows()).toHaveLength(2);

    await answerOnTile(screen, "Cedar", "yes");
    await holdCorner(screen, 3_200);
    await enterCode(screen, "0000");
    await screen.getByText("That is not the code.").waitFor();
    await enterCode(screen, code).catch(() => undefined);
    await waitFor(async () => ((await windows()).length === 1 ? true : null), "the way out");
    expect(await windows()).toEqual([{ isVisible: true, isFull: false }]);
    await button(page, "Pause").waitFor();
  });
});
