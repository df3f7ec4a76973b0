import type { Page } from "playwright";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { axeFindingsInBoth } from "./support/axe.ts";
import { everyRoute, sampleRoutes } from "./support/every-route.ts";
import { launchLoopback } from "./support/launch.ts";
import { openPlanMore, showTiles } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const folder = temporaryFolder();
let app: Awaited<ReturnType<typeof launchLoopback>>;
let page: Page;
let show: (route: string) => Promise<Page>;

beforeAll(async () => {
  app = await launchLoopback({ dataFolder: folder.path, args: ["--sample", "--speed", "20"] });
  page = await app.page();
  show = await sampleRoutes(page);
});

afterAll(async () => {
  await app.close();
  folder.remove();
});

const findings = (shown = page) => axeFindingsInBoth(shown);

describe("Axe finds nothing on", () => {
  it.each(everyRoute)("%s", async (route) => {
    expect(await findings(await show(route))).toEqual([]);
  });

  it("a plan that cannot be run", async () => {
    await show("/groups/:groupId/plans/:planId");
    await openPlanMore(page);
    const shortest = page.getByLabel("Never closer than");
    await shortest.fill("500");
    await shortest.press("Tab");
    await page.getByText("This plan cannot run yet").first().waitFor();
    expect(await findings()).toEqual([]);
  });
  it("a session held without the app, its cues drawn", async () => {
    await show("/groups/:groupId/held");
    await page.getByRole("textbox", { name: "Seed" }).fill("heron");
    await page.getByRole("checkbox").first().waitFor();
    expect(await findings()).toEqual([]);
  });
  it("a privilege's dialog", async () => {
    await show("/groups/:groupId/points");
    await page.getByRole("button", { name: "New privilege" }).click();
    await page.getByLabel("What it is").waitFor();
    expect(await findings()).toEqual([]);
  });
  it("the dialog of a swap", async () => {
    await show("/groups/:groupId/teams");
    await page.getByRole("button", { name: "Swap two students" }).click();
    await page.getByRole("dialog").waitFor();
    expect(await findings()).toEqual([]);
  });
  it("a student's dialog", async () => {
    await show("/groups/:groupId");
    await page
      .locator(".groups-student")
      .first()
      .getByRole("button", { name: /^More for / })
      .click();
    await page.getByRole("menuitem", { name: "Change" }).click();
    await page.getByRole("dialog").waitFor();
    expect(await findings()).toEqual([]);
    await page.keyboard.press("Escape");
  });
  it("a running session, its board, its tiles and its end", async () => {
    await show("/");
    await page
      .getByRole("button", { name: /Start a session/ })
      .first()
      .click();
    await page.getByRole("dialog", { name: "Hear the chime first" }).waitFor();
    expect(await findings()).toEqual([]);
    await page.getByRole("button", { name: "Start the session" }).click();
    await page.getByRole("region", { name: "Teacher’s view" }).waitFor();
    expect(await findings()).toEqual([]);
    await showTiles(page);
    await page.locator(".tile-answer:enabled").first().waitFor({ timeout: 60_000 });
    expect(await findings()).toEqual([]);
    const session = page.url();
    await show("/board");
    await page.locator(".cue-sign").waitFor();
    expect(await findings()).toEqual([]);
    const tiles = await show("/tiles");
    await tiles.locator(".tile").first().waitFor();
    expect(await findings(tiles)).toEqual([]);
    await page.goto(session);
    await page.getByText("Names on this screen").click();
    expect(await findings()).toEqual([]);
    await page.getByRole("button", { name: "End", exact: true }).click();
    await page.getByRole("button", { name: "End it" }).click();
    await page.getByRole("heading", { name: "The session is over" }).waitFor();
    expect(await findings()).toEqual([]);
  });
});

// 320 pixels are what a window of 1280 has at a zoom of 400 %: WCAG 1.4.10. Paper keeps its size and scrolls
// by itself.
describe("Nothing but a table scrolls sideways at 320 pixels on", () => {
  const narrow = { width: 320, height: 640 };
  const wide = { width: 1366, height: 768 };
  beforeAll(() => page.setViewportSize(narrow));
  afterAll(() => page.setViewportSize(wide));

  it.each(everyRoute)("%s", async (route) => {
    const shown = await show(route);
    await expect.poll(() => width(shown)).toBeLessThanOrEqual(narrow.width);
  });

  const width = (shown: Page) => shown.evaluate(() => document.documentElement.scrollWidth);

  it("a running session in each of its views", async () => {
    await show("/groups/:groupId");
    await page.getByRole("button", { name: "Start a session" }).click();
    const start = page.getByRole("button", { name: "Start the session" });
    await start.waitFor();
    const hear = page.getByRole("button", { name: "Hear the chime" });
    if (await hear.isVisible()) await hear.click();
    await start.click();
    await page.waitForURL(/\/session\//);
    for (const view of ["Students’ tiles", "Class board", "Teacher’s view"]) {
      await page.getByRole("button", { name: view, exact: true }).click();
      await expect.poll(() => width(page), { message: view }).toBeLessThanOrEqual(narrow.width);
    }
    await show("/board");
    await expect.poll(() => width(page)).toBeLessThanOrEqual(narrow.width);
  });
});
