import { readFileSync } from "node:fs";
import type { Page } from "playwright";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { launchLoopback } from "./support/launch.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

// Real presses on the analysis pane, with the invented sample class.

describe("the progress of the sample class", () => {
  const folder = temporaryFolder();
  let app: Awaited<ReturnType<typeof launchLoopback>>;
  let page: Page;
  let group: string;

  beforeAll(async () => {
    app = await launchLoopback({ dataFolder: folder.path, args: ["--sample"] });
    page = await app.page();
    const link = page.locator("a[href^='/groups/']").first();
    await link.waitFor();
    const groupId = (await link.getAttribute("href"))?.split("/").at(-1) ?? "";
    group = `${new URL(page.url()).origin}/progress/${groupId}`;
    await page.goto(group);
    await page.getByRole("link", { name: "Pine", exact: true }).click();
    await graph().locator(".chart").waitFor();
    await graph().getByText("As a table").click();
    await page.getByText("Change the days or the lines of this chart").click();
  });
  afterAll(async () => {
    await app.close();
    folder.remove();
  });

  async function chooseDesign(name: string) {
    await page.getByRole("button", { name: "Draw a design by lot" }).click();
    await page.getByRole("menuitem", { name }).click();
  }

  const graph = () =>
    page.getByRole("figure", { name: "On-task rate of Pine, session by session" });
  const reader = () => graph().getByRole("slider");
  const points = async () => Number(await reader().getAttribute("aria-valuemax"));
  const words = () => reader().getAttribute("aria-valuetext");
  const drawnPaths = () => graph().locator(".chart path").count();
  const shown = () => page.getByText(/^\d+ sessions? shown, /);

  it("is zoomed to a span, which is said, drawn and tabled alike", async () => {
    const all = await points();
    expect(all).toBeGreaterThan(15);
    await page.getByText("From day to day", { exact: true }).click();
    const from = page.getByLabel("From", { exact: true });
    const to = page.getByLabel("To", { exact: true });
    const last = await to.inputValue();
    const nineDaysBefore = new Date(Date.parse(last) - 9 * 86_400_000).toISOString().slice(0, 10);
    await from.fill(nineDaysBefore);
    await expect.poll(points).toBeLessThan(all);
    const inSpan = await points();
    await expect.poll(() => shown().textContent()).toContain(`${inSpan} sessions shown, `);
    // While its year is typed a day is of the years 2, 20 and 202, and moves neither end of the span.
    const [year = "", month = "", day = ""] = last.split("-");
    await to.focus();
    await page.keyboard.type(`${month}${day}${year}`);
    expect([await from.inputValue(), await to.inputValue()]).toEqual([nineDaysBefore, last]);
    expect(await points()).toBe(inSpan);

    const rows = graph().getByRole("table").locator("tbody tr");
    expect(await rows.count()).toBe(inSpan);
    await page.getByText("All", { exact: true }).click();
    await expect.poll(() => rows.count()).toBe(all);
    await expect.poll(points).toBe(all);
  });

  it("is read point by point with the keyboard, as the table has it", async () => {
    const rows = graph().getByRole("table").locator("tbody tr");
    const last = (await points()) - 1;
    await reader().focus();
    for (const { key, row } of [
      { key: "Home", row: 0 },
      { key: "ArrowRight", row: 1 },
      { key: "End", row: last },
      { key: "ArrowLeft", row: last - 1 },
    ]) {
      await page.keyboard.press(key);
      await expect.poll(() => reader().getAttribute("aria-valuenow")).toBe(String(row + 1));
      const cells = await rows.nth(row).locator("th, td").allTextContents();
      const [day = "", , rate = "", , on = "", marks = ""] = cells;
      const said = await words();
      expect(said).toContain(day);
      expect(said).toContain(`${rate} on task, ${on} of ${marks} mark`);
    }
    await expect.poll(() => graph().locator(".figure-reader-ring").count()).toBe(1);
    await page.keyboard.press("Escape");
    await expect.poll(() => graph().locator(".figure-reader-ring").count()).toBe(0);
  });

  it("shows each overlay when it is switched on, and takes it off again", async () => {
    const overlays = [
      "Trend of each phase, with its interval",
      "Interval of each session",
      "Criterion lines of the baseline",
    ];
    const marks = async () => (await drawnPaths()) + (await graph().locator(".chart line").count());
    const bare = await marks();
    for (const name of overlays) {
      const overlay = page.getByRole("switch", { name });
      expect(await overlay.isChecked()).toBe(false);
      await overlay.focus();
      await page.keyboard.press("Space");
      await expect.poll(marks).toBeGreaterThan(bare);
      await page.keyboard.press("Space");
      await expect.poll(marks).toBe(bare);
    }
    await page.getByRole("switch", { name: "Level of each phase" }).focus();
    await page.keyboard.press("Space");
    await expect.poll(marks).toBeLessThan(bare);
  });

  it("has a line for each student in the list's order, and only those pointed out when asked", async () => {
    await page.goto(group);
    const table = page.getByRole("table", { name: "Each student" });
    const names = () => table.locator("tbody th").allTextContents();
    await expect.poll(async () => (await names()).length).toBe(8);
    const all = await names();
    expect(all.slice(0, 3)).toEqual(["Pine", "Otter", "Comet"]);
    const pointedOut = await table.locator("tbody tr:has(td:last-child:not(:empty)) th").count();
    await page.getByRole("switch", { name: /^Only “look here”/ }).focus();
    await page.keyboard.press("Space");
    await expect.poll(async () => (await names()).length).toBe(pointedOut);
    await page.goBack();
    await graph().locator(".chart").waitFor();
  });

  it("keeps a note on a day, added to what was noted before", async () => {
    const notes = page.locator("section", {
      has: page.getByRole("heading", { name: "Notes on days" }),
    });
    await notes.getByText("Add a note").click();
    for (const note of ["A substitute today.", "The substitute left at ten."]) {
      await notes.getByLabel(/^Note on /).fill(note);
      await notes.getByRole("button", { name: "Save the note" }).click();
      await notes.locator("dd", { hasText: note }).waitFor();
    }
    expect(await notes.locator("dd").first().textContent()).toBe(
      "A substitute today.\nThe substitute left at ten.",
    );
  });

  it("saves the whole class as one drawing, in the order of the list", async () => {
    await page.goto(group);
    const what = "Everybody at a glance: Sample class (invented)";
    await page.getByText("Everybody on one scale", { exact: true }).click();
    const button = page.getByRole("button", { name: `Save “${what}” as an SVG drawing` });
    await button.waitFor();
    const names = await page.locator(".glance figcaption a").allTextContents();
    const [download] = await Promise.all([page.waitForEvent("download"), button.click()]);
    const svg = readFileSync(await download.path(), "utf8");
    const inFile = [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text);
    expect(inFile.filter((text) => names.includes(text ?? ""))).toEqual(names);
    expect(svg).toContain(`<title>${what}</title>`);
    expect(svg).not.toContain("var(--");
    expect(await page.locator(".chart-sheet").count()).toBe(0);
  });

  it("says how sure it is, for the class's own plan", async () => {
    await page.goto(group);
    await page.getByText(/would be flagged as falling by chance .* much alike/).waitFor();
    await page.getByRole("link", { name: "How sure is this?" }).click();
    const table = page.getByRole("table", { name: "When nothing has changed" });
    await table.waitFor();
    expect(await table.getByRole("row").count()).toBe(11);
    // What the class page and the sentences below the table say comes from the table.
    await page.getByText(/about one steady student in \d+ gets it/).waitFor();
    await page.getByText(/^10 cues show one session’s share/).waitFor();
  });

  it("draws staggered starts for three students, who then have phases of their own", async () => {
    await page.goto(group);
    await chooseDesign("Draw staggered starts");
    const save = page.getByRole("button", { name: "Save", exact: true });
    const draw = page.getByRole("button", { name: "Draw the order and the days" });
    expect(await draw.isDisabled()).toBe(true);
    for (const name of ["Pine", "Otter", "Comet"]) {
      await page.locator("label.check-box", { hasText: name }).click();
    }
    await page.getByText(/^There are 125 ways to draw the days of these 3 students/).waitFor();
    await draw.click();
    await page
      .getByText(/ \(drawn from .* to .*\)$/)
      .nth(2)
      .waitFor();
    await save.click();
    await save.waitFor({ state: "detached" });
    const rows = page.getByRole("row").filter({ hasText: /Drawn from .* seed/ });
    await expect.poll(() => rows.count()).toBe(3);
    // Others go on by the group's phases.
    expect(await page.getByRole("row").filter({ hasText: "the whole group" }).count()).toBe(2);
  });

  it("draws a withdrawal for a student: program, baseline and program again", async () => {
    await page.goto(group);
    await chooseDesign("Draw a withdrawal");
    await page.getByRole("button", { name: "Draw the three days" }).click();
    await page.getByText(/^It is taken away from .* on \(drawn from/).waitFor();
    const save = page.getByRole("button", { name: "Save", exact: true });
    const before = await page
      .getByRole("row")
      .filter({ hasText: /Drawn from .* seed/ })
      .count();
    await save.click();
    await save.waitFor({ state: "detached" });
    const rows = page.getByRole("row").filter({ hasText: /Drawn from .* seed/ });
    await expect.poll(() => rows.count()).toBe(before + 3);
  });

  it("is read ahead on Today, so that the class's page finds its answer there", async () => {
    const readings = () =>
      page.evaluate(() =>
        performance
          .getEntriesByName("analysis-done")
          .map((entry) => {
            const { detail } = entry as PerformanceMark;
            return (detail as { kind: string }).kind;
          })
          .toSorted(),
      );
    await page.goto(new URL("/", group).href);
    await expect.poll(readings).toEqual(["group", "next", "student"]);
    await page.getByRole("link", { name: "See progress" }).click();
    await page.getByRole("heading", { name: "Each student" }).waitFor();
    expect(await readings()).toEqual(["group", "next", "student"]);
    // The first student's page too; another student's is read when it is opened.
    await page.getByRole("link", { name: "Pine", exact: true }).click();
    await graph().locator(".chart").waitFor();
    expect((await readings()).length).toBeLessThanOrEqual(4);
  });

  it("draws two conditions by turns, says the next one, and compares them at the end", async () => {
    await page.goto(group);
    await chooseDesign("Draw turns for two conditions");
    const draw = page.getByRole("button", { name: "Draw the order" });
    expect(await draw.isDisabled()).toBe(true);
    await page.getByLabel("One condition").fill("With music");
    await page.getByLabel("The other condition").fill("In quiet");
    await page.getByText(/^84 orders of 10 sessions can be drawn/).waitFor();
    await draw.click();
    await page.getByText("An order of 10 sessions is drawn.").waitFor();
    const save = page.getByRole("button", { name: "Save", exact: true });
    await save.click();
    await save.waitFor({ state: "detached" });
    await page.getByText(/take turns: 0 of 10 sessions done\. They are compared/).waitFor();
    await page.goto(new URL("/", group).href);
    const told = page.getByText(/The next session is “(With music|In quiet)” \(1 of 10\)/);
    const [, next] = /session is “(.*?)”/.exec((await told.textContent()) ?? "") ?? [];
    await page
      .getByRole("button", { name: /^Start a session/ })
      .first()
      .click();
    await page.getByRole("dialog").getByText(`This session: “${next}”`).waitFor();
    await page.getByRole("button", { name: "Start the session" }).click();
    await page.waitForURL(/session/);
    await page.goto(new URL("/", group).href);
    await page.getByText("(2 of 10)").waitFor();
  });
});
