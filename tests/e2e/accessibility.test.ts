import AxeBuilder from "@axe-core/playwright";
import type { Page } from "playwright";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { launchLoopback } from "./support/launch.ts";
import { openPlanMore, showTiles } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

// Rules of WCAG 2.2, levels A and AA, as the axe rules check them; what no program can check (words,
// order, sense) is looked at by people.
const rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

const folder = temporaryFolder();
let app: Awaited<ReturnType<typeof launchLoopback>>;
let page: Page;
let origin: string;
let groupId: string;

beforeAll(async () => {
  app = await launchLoopback({ dataFolder: folder.path, args: ["--sample", "--speed", "20"] });
  page = await app.page();
  origin = new URL(page.url()).origin;
  const group = page.getByRole("link", { name: "Sample class (invented)" }).first();
  await group.waitFor();
  groupId = (await group.getAttribute("href"))?.split("/").at(-1) ?? "";
});

afterAll(async () => {
  await app.close();
  folder.remove();
});

async function findings(): Promise<string[]> {
  const found: string[] = [];
  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
    const { violations } = await new AxeBuilder({ page }).withTags(rules).analyze();
    found.push(
      ...violations.map(
        ({ id, help, nodes }) =>
          `${colorScheme}: ${id}: ${help}: ${nodes.map(({ html }) => html.slice(0, 120)).join(" | ")}`,
      ),
    );
  }
  return found;
}

/** The address of the first link of a page whose address matches. */
async function firstLink(from: string, selector: string): Promise<string> {
  await page.goto(`${origin}${from}`);
  const link = page.locator(selector).first();
  await link.waitFor();
  return (await link.getAttribute("href")) ?? "/";
}

describe("Axe finds nothing on", () => {
  const look = async (address: string, ready: string) => {
    await page.goto(`${origin}${address}`);
    await page.locator(ready).first().waitFor();
    expect(await findings()).toEqual([]);
  };

  it("Today", () => look("/", ".today-group"));
  it("Groups", () => look("/groups", ".groups-row"));
  it("one group", () => look(`/groups/${groupId}`, ".groups-student"));
  it("one plan", async () => {
    await look(await firstLink(`/groups/${groupId}`, "a[href*='/plans/']"), ".plan-happens-cues");
  });
  it("a plan that cannot be run", async () => {
    await page.goto(origin + (await firstLink(`/groups/${groupId}`, "a[href*='/plans/']")));
    await openPlanMore(page);
    const shortest = page.getByLabel("Never closer than");
    await shortest.fill("500");
    await shortest.press("Tab");
    await page.getByText("This plan cannot be run yet").first().waitFor();
    expect(await findings()).toEqual([]);
  });
  it("progress of a class", () => look(`/progress/${groupId}`, ".chart"));
  it("what was agreed, a home card and a contract", async () => {
    const progress = await firstLink(`/progress/${groupId}`, `a[href^='/progress/${groupId}/']`);
    const studentId = progress.split("/").at(-1);
    for (const part of ["agreed", "home-card", "contract"]) {
      await look(`/groups/${groupId}/students/${studentId}/${part}`, ".page-section");
    }
  });
  it("home cards of a day", () => look(`/groups/${groupId}/home-cards`, ".home-card"));
  it("how sure it is", () => look(`/progress/how-sure/${groupId}`, "table"));
  it("progress of a student", async () => {
    await look(
      await firstLink(`/progress/${groupId}`, `a[href^='/progress/${groupId}/']`),
      ".chart",
    );
  });
  it("a child's own record", async () => {
    const student = await firstLink(`/progress/${groupId}`, `a[href^='/progress/${groupId}/']`);
    await look(student.replace("/progress/", "/own/"), ".own-sessions");
  });
  it("cards", async () => {
    await look(await firstLink("/", "a[href$='/cards']"), "[role=grid]");
  });
  it("a session held without the app", async () => {
    await page.goto(`${origin}/groups/${groupId}/held`);
    await page.getByRole("textbox", { name: "Seed" }).fill("heron");
    await page.getByRole("checkbox").first().waitFor();
    expect(await findings()).toEqual([]);
  });
  it("points, with a privilege's dialog", async () => {
    await look(`/groups/${groupId}/points`, ".points-row");
    await page.getByRole("button", { name: "New privilege" }).click();
    await page.getByLabel("What it is").waitFor();
    expect(await findings()).toEqual([]);
  });

  it("teams, with the dialog of a swap", async () => {
    await look(`/groups/${groupId}/teams`, ".teams-card");
    await page.getByRole("button", { name: "Swap two students" }).click();
    await page.getByRole("dialog").waitFor();
    expect(await findings()).toEqual([]);
  });
  it("pairs", () => look(`/groups/${groupId}/pairs`, ".roll-names"));

  it("settings", () => look("/settings", "main h1"));
  it("a dialog", async () => {
    await page.goto(`${origin}/groups/${groupId}`);
    await page
      .getByRole("button", { name: /^More for / })
      .first()
      .click();
    await page.getByRole("menuitem", { name: "Change" }).click();
    await page.getByRole("dialog").waitFor();
    expect(await findings()).toEqual([]);
    await page.keyboard.press("Escape");
  });
  it("a running session, its board and its end", async () => {
    await page.goto(origin);
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
    const session = new URL(page.url()).pathname;
    await look("/board", ".cue-sign");
    await page.goto(origin + session);
    await page.getByText("Names on this screen").click();
    expect(await findings()).toEqual([]);
    await page.getByRole("button", { name: "End", exact: true }).click();
    await page.getByRole("button", { name: "End it" }).click();
    await page.getByRole("heading", { name: "The session is over" }).waitFor();
    expect(await findings()).toEqual([]);
  });
});

// 320 pixels are what a window of 1280 has at a zoom of 400 %: WCAG 1.4.10.
describe("Nothing but a table scrolls sideways at 320 pixels on", () => {
  const narrow = { width: 320, height: 640 };
  const wide = { width: 1366, height: 768 };
  beforeAll(() => page.setViewportSize(narrow));
  afterAll(() => page.setViewportSize(wide));

  const fits = async (address: string, ready = "main h1") => {
    await page.goto(`${origin}${address}`);
    await page.locator(ready).first().waitFor();
    const width = () => page.evaluate(() => document.documentElement.scrollWidth);
    await expect.poll(width).toBeLessThanOrEqual(narrow.width);
  };

  it("Today", () => fits("/", ".today-group"));
  it("groups", () => fits("/groups", ".groups-row"));
  it.each([
    "",
    "/room",
    "/transfer",
    "/observe",
    "/practice",
    "/held",
    "/points",
    "/teams",
    "/pairs",
    "/home-cards",
  ])("a group%s", (way) => fits(`/groups/${groupId}${way}`));
  it("a plan", async () => {
    await fits(await firstLink(`/groups/${groupId}`, "a[href*='/plans/']"), ".plan-happens-cues");
  });
  it("cards", async () => fits(await firstLink("/", "a[href$='/cards']"), "[role=grid]"));
  it("what was agreed, a home card and a contract", async () => {
    const student = await firstLink(`/progress/${groupId}`, `a[href^='/progress/${groupId}/']`);
    for (const part of ["agreed", "home-card", "contract"]) {
      const id = student.split("/").at(-1);
      await fits(`/groups/${groupId}/students/${id}/${part}`, ".page-section");
    }
  });
  it("a child's own record", async () => {
    const student = await firstLink(`/progress/${groupId}`, `a[href^='/progress/${groupId}/']`);
    await fits(student.replace("/progress/", "/own/"), ".own-sessions");
  });
  it("progress", () => fits("/progress"));
  it("progress of a class", () => fits(`/progress/${groupId}`, ".chart"));
  it("how sure it is", () => fits(`/progress/how-sure/${groupId}`, "table"));
  it("progress of a student", async () => {
    const student = await firstLink(`/progress/${groupId}`, `a[href^='/progress/${groupId}/']`);
    await fits(student, ".chart");
  });
  it("settings", () => fits("/settings"));
  // Paper keeps its size and scrolls by itself.
  it("everything that is printed for a class", async () => {
    const plan = await firstLink(`/groups/${groupId}`, "a[href*='/plans/']");
    const planId = plan.split("/").at(-1);
    for (const sheets of [
      `cards/${groupId}/${planId}`,
      `cue-key/${planId}`,
      `observation/${groupId}/${planId}`,
      `prices/${groupId}`,
      `own/${groupId}`,
      `family/${groupId}`,
      "first-week",
    ]) {
      await fits(`/print/${sheets}`, ".sheet");
    }
  });
  it("the report on a student", async () => {
    const student = await firstLink(`/progress/${groupId}`, `a[href^='/progress/${groupId}/']`);
    await fits(student.replace("/progress/", "/print/report/"), ".sheet");
  });
  it("a session that is over, its quick totals and its second observer", async () => {
    const cards = await firstLink("/", "a[href$='/cards']");
    const session = cards.replace(/\/cards$/, "");
    await fits(session);
    await fits(`${session}/quick-totals`);
    await fits(`${session}/observe-second`);
  });
  it("a running session in each of its views", async () => {
    await page.goto(`${origin}/groups/${groupId}`);
    await page.getByRole("button", { name: "Start a session" }).click();
    const start = page.getByRole("button", { name: "Start the session" });
    await start.waitFor();
    const hear = page.getByRole("button", { name: "Hear the chime" });
    if (await hear.isVisible()) await hear.click();
    await start.click();
    await page.waitForURL(/\/session\//);
    const width = () => page.evaluate(() => document.documentElement.scrollWidth);
    for (const view of ["Students' tiles", "Class board", "Teacher’s view"]) {
      await page.getByRole("button", { name: view, exact: true }).click();
      await expect.poll(width).toBeLessThanOrEqual(narrow.width);
    }
    await fits("/board", ".board");
  });
});
