import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { button, link, makeGroup } from "./support/steps.ts";

const app = oneApp();
// Invented names.
const names = Array.from({ length: 12 }, (_, at) => `Leaf ${at + 1}`);
const cards = (page: Page) => page.locator(".teams-card");

async function membersOf(page: Page): Promise<string[][]> {
  return Promise.all(
    (await cards(page).all()).map((card) => card.locator("ul li").allTextContents()),
  );
}

const weekdayToday = () => new Date().toLocaleDateString("en", { weekday: "long" });

/** A group of twelve with teams of three dealt for four rounds. */
async function withTeams(page: Page): Promise<void> {
  await makeGroup(page, "Table two", names);
  await link(page, "Teams").click();
  await page.getByLabel("Students per team").fill("3");
  await page.getByLabel("Rounds in the term").fill("4");
  await page.keyboard.press("Tab");
  // So that the first round has begun, whatever day it is.
  await button(page, /A round begins on/).click();
  await page.getByRole("option", { name: weekdayToday() }).click();
  await button(page, "Save and go on").click();
  await button(page, "Deal 4 rounds").click();
  await cards(page).first().waitFor({ timeout: 60_000 });
}

describe("Teams", () => {
  it("are dealt in the worker, said in plain words, swapped on request, and dealt anew for a new student", async () => {
    const page = await app.open();
    const errors: string[] = [];
    page.on("console", (message) => {
      if (message.type() === "error") errors.push(message.text());
    });
    await withTeams(page);
    const first = await membersOf(page);
    expect(first.map((team) => team.length)).toEqual([3, 3, 3, 3]);
    expect(first.flat().toSorted()).toEqual(names.toSorted());
    await page
      .getByText(
        "no two students are on the same team twice. Repeated meetings: 0; the least possible is 0.",
      )
      .waitFor();

    await button(page, "Swap two students").click();
    await page.getByText("Anybody may ask to swap, and need not say why.").waitFor();
    await button(page, "Swap them").click();
    await page.getByRole("dialog").waitFor({ state: "hidden" });
    await expect.poll(() => membersOf(page)).not.toEqual(first);
    // A second window swaps while the dialog is open here: what is offered stays, and the press swaps nobody else.
    await button(page, "Swap two students").click();
    const once = await membersOf(page);
    const offered = await page.getByRole("dialog").textContent();
    const other = await app.another(new URL(page.url()).pathname);
    await button(other, "Swap two students").click();
    await button(other, "Swap them").click();
    await other.getByRole("dialog").waitFor({ state: "hidden" });
    await other.close();
    await expect.poll(() => membersOf(page)).not.toEqual(once);
    const swapped = await membersOf(page);
    expect(await page.getByRole("dialog").textContent()).toBe(offered);
    await button(page, "Swap them").click();
    await page.getByText("Another window changed these teams in the meantime").waitFor();
    await page.getByRole("dialog").getByRole("button", { name: "Cancel" }).click();
    expect(await membersOf(page)).toEqual(swapped);

    await link(page, "Table two").first().click();
    await page.getByLabel("Add students").fill("Newcomer");
    await button(page, "Add 1 student").click();
    await page.getByText("Newcomer", { exact: true }).first().waitFor();
    await link(page, "Teams").click();
    await page.getByText("The coming rounds no longer fit").waitFor();
    await expect
      .poll(async () => (await membersOf(page)).flat().toSorted())
      .toEqual([...names, "Newcomer"].toSorted());
    await button(page, "Deal the coming rounds again").click();
    await page
      .getByText("The coming rounds no longer fit")
      .waitFor({ state: "hidden", timeout: 60_000 });
    // What is held stays.
    const after = (await membersOf(page)).map((team) => team.filter((name) => name !== "Newcomer"));
    expect(after.map((team) => team.toSorted())).toEqual(swapped.map((team) => team.toSorted()));
    expect(errors).toEqual([]);
  });

  it("keep apart whom they must, and offer no swap that would not", async () => {
    const page = await app.open();
    await withTeams(page);
    await page.getByText("Who stays together or apart (0)").click();
    for (const [kind, ...who] of [
      ["never on the same team", "Leaf 1", "Leaf 2"],
      ["always on the same team", "Leaf 3", "Leaf 4"],
    ] as const) {
      await button(page, "Add a wish").click();
      const dialog = page.getByRole("dialog");
      await dialog.getByText(kind, { exact: true }).click();
      for (const name of who) await dialog.getByText(name, { exact: true }).click();
      await button(page, "Save").last().click();
      await dialog.waitFor({ state: "hidden" });
    }
    await page.getByText("Who stays together or apart (2)").waitFor();
    await button(page, "Deal the coming rounds again").click();
    await page
      .getByText("The coming rounds no longer fit")
      .waitFor({ state: "hidden", timeout: 90_000 });
    await page.getByText("See the coming rounds").click();
    const teams = await page.locator(".teams-rounds li li").allTextContents();
    // Three rounds of four teams are still to come.
    expect(teams).toHaveLength(12);
    for (const team of teams) {
      const has = (name: string) => new RegExp(`${name}(?!\\d)`).test(team);
      expect(has("Leaf 1") && has("Leaf 2")).toBe(false);
      expect(has("Leaf 3")).toBe(has("Leaf 4"));
    }
    // After a reload all is as it was kept.
    await page.reload();
    await page.getByText("Who stays together or apart (2)").waitFor();
  });

  it("show the class names of teams and met or not yet, after seatwork and nothing else", async () => {
    const page = await app.open("--speed", "20");
    await withTeams(page);
    await page.getByText("Names of the teams").click();
    await page.getByLabel("Team 1").fill("Kites");
    await page
      .locator("form")
      .filter({ has: page.getByLabel("Team 1") })
      .getByRole("button")
      .click();
    await page.getByRole("heading", { name: "Kites" }).waitFor();
    await page.getByText("The term", { exact: true }).click();
    await page.getByText("Show on the class screen after seatwork").click();
    await page
      .locator("form")
      .filter({ hasText: "Show on the class screen" })
      .getByRole("button", { name: "Save" })
      .click();
    await link(page, "Table two").first().click();
    await button(page, "Start a session").click();
    await button(page, "Start the session").click();
    await page.locator(".strip, .session-strip, main").first().waitFor();
    const classPage = await app.another("/tiles");
    await classPage.locator(".tile").first().waitFor();
    expect(await classPage.getByText("Kites").count()).toBe(0);
    await button(page, "End").click();
    await button(page, "End it").click();
    const shown = classPage.locator(".class-teams");
    await shown.getByText("Kites").waitFor();
    expect(await shown.locator("li").count()).toBe(4);
    const words = await shown.textContent();
    for (const name of names) expect(words).not.toContain(name);
    expect(words?.replaceAll(/Team \d/g, "")).not.toMatch(/\d/);
  });
});

describe("Pairs", () => {
  it("are made from today's roll, corrected together, and printed with who teaches whom", async () => {
    const page = await app.open();
    await makeGroup(page, "Table two", names.slice(0, 7));
    await link(page, "Pairs for tutoring").click();
    await button(page, "Absent: Leaf 3").click();
    await button(page, "Make the pairs").click();
    await page.getByRole("heading", { name: "Lesson 1, today" }).waitFor();
    const rows = page.locator(".pairs-lesson .check-box");
    expect(await rows.count()).toBe(3);
    expect((await rows.allTextContents()).join()).not.toContain("Leaf 3");
    await button(page, "All are corrected").click();
    await expect.poll(() => page.locator(".pairs-lesson [data-selected]").count()).toBe(3);
    await page.reload();
    await expect.poll(() => page.locator(".pairs-lesson [data-selected]").count()).toBe(3);
    await link(page, "Print the lesson sheet").click();
    await page.locator(".pairs-table tbody tr").first().waitFor();
    expect(await page.locator(".pairs-table tbody tr").count()).toBe(3);
  });
});
