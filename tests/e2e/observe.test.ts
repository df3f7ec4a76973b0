import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { waitFor } from "./support/launch.ts";
import { oneApp } from "./support/one-app.ts";
import { paced } from "./support/pace.ts";
import { button, link, makeGroup } from "./support/steps.ts";

const app = oneApp();

/** The student whom a window asks to look at, once it asks. */
async function lookedAt(page: Page): Promise<string> {
  const asked = page.getByText(/^Look at /);
  await asked.waitFor({ timeout: 60_000 });
  // What has just appeared takes nothing for 300 ms; here a little longer, for a slow machine.
  await page.waitForTimeout(400);
  return ((await asked.textContent()) ?? "").replace("Look at ", "");
}

/** How many looks this window has recorded, over all students. */
async function looksSoFar(page: Page): Promise<number> {
  const items = await page
    .getByRole("list", { name: "Observations so far" })
    .getByRole("listitem")
    .allTextContents();
  return items.reduce((sum, item) => sum + Number(/\d+$/.exec(item)?.[0]), 0);
}

describe("A teacher who watches without cueing the class", () => {
  it("records looks in turn by key, beside a second observer, and sees how well they agree", async () => {
    // Slow enough that no observation passes while two windows are read and answered on a busy machine.
    const page = await app.open(...paced(5));
    await makeGroup(page, "Window side", ["Ash", "Birch", "Cedar"]);
    await link(page, "Today").click();
    await link(page, "Watch without cueing: Window side").click();
    await page.getByRole("checkbox", { name: "Cedar" }).uncheck({ force: true });
    await button(page, "Start watching").click();
    await page.getByText("The first observation comes when nobody expects it.").waitFor();

    const opening = page.waitForEvent("popup");
    await button(page, "Window for a second observer").click();
    const second = await opening;

    const first = await lookedAt(page);
    expect(await lookedAt(second)).toBe(first);
    await page.keyboard.press("1");
    await page.getByText(`${first}: working`).waitFor();
    await second.keyboard.press("2");
    await second.getByText(`${first}: not working`).waitFor();

    const next = await lookedAt(page);
    expect([first, next].sort()).toEqual(["Ash", "Birch"]);
    await page.keyboard.press("2");
    await page.getByText(`${next}: not working`).waitFor();
    await second.keyboard.press("2");
    await second.getByText(`${next}: not working`).waitFor();

    await button(page, "End").click();
    await button(page, "End it").click();
    await page.getByRole("heading", { name: "The observation is over" }).waitFor();
    await second.getByText("The session is over.").waitFor();
    await page.getByText("Both said the same at 1 of 2 observations: 50%.").waitFor();
    await page.getByText("Kappa and the other figures").click();
    await page
      .getByRole("row", { name: /Both on \/ first only/ })
      .getByText("0 / 1 / 0 / 1")
      .waitFor();
    expect(await page.getByRole("row", { name: new RegExp(`^${first}`) }).textContent()).toMatch(
      /100%/,
    );
    expect(await page.getByRole("row", { name: /^Cedar/ }).count()).toBe(0);
  });

  it("types in a second observer's printed sheet, one key a look, and finds it after a reload", async () => {
    const page = await app.open(...paced(10));
    await makeGroup(page, "Corner", ["Ash", "Birch"]);
    await link(page, "Today").click();
    await link(page, "Watch without cueing: Corner").click();
    await button(page, "Start watching").click();
    for (let look = 1; look <= 3; look++) {
      await lookedAt(page);
      await page.keyboard.press("1");
      await expect.poll(() => looksSoFar(page)).toBe(look);
    }
    await button(page, "End").click();
    await button(page, "End it").click();
    await link(page, "Enter or correct a sheet").click();
    const sheet = page.getByRole("grid", { name: "Sheet of observer 2" });
    await sheet.locator("[data-place][tabindex='0']").focus();
    await page.keyboard.type("+x");
    await page.getByText("“x” is not a mark here.").waitFor();
    await page.keyboard.type("-+");
    await page.keyboard.press("Enter");
    await page.getByText("All saved").waitFor();
    await page.getByText("Both said the same at 2 of 3 observations: 67%.").waitFor();
    await page.reload();
    await expect.poll(() => sheet.getByLabel(/: working/).count()).toBe(2);
    await expect.poll(() => sheet.getByLabel(/: not working/).count()).toBe(1);
  });

  it("starts from a printed sheet, with its seed, students and pace, and tells of a sheet of others", async () => {
    const page = await app.open(...paced(10));
    await makeGroup(page, "Back row", ["Ash", "Birch", "Cedar"]);
    await link(page, "Today").click();
    await link(page, "Watch without cueing: Back row").click();
    await page.getByText("A second observer with a printed sheet?").click();
    await link(page, "Print a sheet").click();
    // The page before has a field of that name too.
    await page.getByRole("heading", { name: "Observation sheet of Back row" }).waitFor();
    await page.getByLabel("Seed").fill("quiet moss");
    await page.getByText("Cedar", { exact: true }).first().click();
    await page.getByText("30 seconds", { exact: true }).click();
    await page.getByText("Seed quiet moss:").first().waitFor();
    await page.getByText("An observation comes about every 30 seconds").waitFor();
    const sheetRow = page.getByRole("row", { name: /^1 / }).first();
    const first = (await sheetRow.getByRole("cell").first().textContent()) ?? "";
    expect(["Ash", "Birch"]).toContain(first);

    await link(page, "Start watching with this sheet").click();
    await expect.poll(() => page.getByLabel("Seed").inputValue()).toBe("quiet moss");
    expect(await page.getByRole("checkbox", { name: "Cedar" }).isChecked()).toBe(false);
    expect(await page.getByRole("radio", { name: "30 seconds" }).isChecked()).toBe(true);
    await button(page, "Start watching").click();
    expect(await lookedAt(page)).toBe(first);
    await page.keyboard.press("1");
    await expect.poll(() => looksSoFar(page)).toBe(1);
    await button(page, "End").click();
    await button(page, "End it").click();
    await link(page, "Enter or correct a sheet").click();
    await page.getByText("with the seed quiet moss").waitFor();

    // The box of whoever was not watched: kept, said, and compared with nothing.
    const other = first === "Ash" ? "Birch" : "Ash";
    await page.getByLabel(`${other}, observation 1: nothing recorded`).click();
    await page.keyboard.type("+");
    await page.getByText("At observation 1 this sheet has a different student").waitFor();
    await page.getByText("Only one observer has recorded so far.").waitFor();
  });

  it("leaves the class board silent and the self-records empty", async () => {
    const page = await app.open(...paced(12));
    await makeGroup(page, "Front", ["Ash", "Birch"]);
    await link(page, "Today").click();
    await link(page, "Watch without cueing: Front").click();
    await button(page, "Start watching").click();
    const board = await app.another("/board");
    await board.getByText("Quiet work").waitFor();
    // A page that lies behind another shows no cue.
    await page.bringToFront();
    await lookedAt(page);
    await page.keyboard.press("1");
    await expect.poll(() => looksSoFar(page)).toBe(1);
    expect(await board.getByText("Was I working just now?").count()).toBe(0);
    await button(page, "End").click();
    await button(page, "End it").click();
    await page.getByRole("heading", { name: "The observation is over" }).waitFor();
    await link(page, "Today").click();
    const row = page.getByRole("row", { name: /Front · baseline/ });
    await waitFor(async () => ((await row.count()) === 1 ? true : null), "the session in the list");
    await row.getByText("See what was observed").waitFor();
  });

  it("takes no key while a dialog is open or a field has the focus, and none once keys are switched off", async () => {
    const page = await app.open(...paced(5));
    await makeGroup(page, "Aisle", ["Ash", "Birch"]);
    await link(page, "Today").click();
    await link(page, "Watch without cueing: Aisle").click();
    await button(page, "Start watching").click();
    await lookedAt(page);
    const nothingKept = async () => {
      await page.waitForTimeout(400);
      expect(await looksSoFar(page)).toBe(0);
      // Asked all the while, so that a key would have been an answer.
      expect(await page.getByText(/^Look at /).count()).toBe(1);
    };

    await button(page, "End").click();
    await page.getByRole("alertdialog").waitFor();
    await page.keyboard.press("1");
    await page.keyboard.press("Escape");
    await page.getByRole("alertdialog").waitFor({ state: "hidden" });
    await nothingKept();

    await button(page, "Interruption").click();
    await page.getByRole("textbox").first().focus();
    await page.keyboard.type("12");
    await page.keyboard.press("Escape");
    await nothingKept();

    await link(page, "Settings").click();
    await page
      .getByRole("radiogroup", { name: "Answer with single keys" })
      .getByText("Off", { exact: true })
      .click();
    await link(page, "Session running").click();
    await lookedAt(page);
    await page.keyboard.press("1");
    await nothingKept();
    await button(page, /^Working/).click();
    await expect.poll(() => looksSoFar(page)).toBe(1);
  });
});
