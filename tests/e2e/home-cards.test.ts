import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { button, link, makeGroup } from "./support/steps.ts";

const app = oneApp();

async function openOf(page: Page, name: string, entry: string): Promise<void> {
  await button(page, `More for ${name}`).click();
  await page.getByRole("menuitem", { name: entry }).click();
  await page.getByRole("heading", { level: 1 }).getByText(name).waitFor();
}

/** Gives a student a card of three goals and four lessons; at the student's page. */
async function giveCard(page: Page, name: string, scale: string): Promise<void> {
  await openOf(page, name, "Home card");
  await page.getByLabel("Goals, one on each line").fill("Begin at once\nAsk for help\nTidy up");
  await page.getByLabel("Lessons, one on each line").fill("Reading\nSums\nNature\nArt");
  await page.getByText(scale, { exact: true }).click();
  await button(page, "Save this card").click();
  await page.getByText(/^Saved: from .* 12 ratings a day/).waitFor();
}

const box = (page: Page, name: string) => page.getByRole("gridcell", { name });

/**
 * A stroke by somebody who does not know the keyboard, and getting ready for one, in seconds: the
 * keystroke-level model, Card SK, Moran TP, Newell A (1983), as the table of the University of Hamburg's pages
 * on evaluating software (GOMS) has it: 1.20 and 1.35.
 */
const slowestStroke = 1.2;
const gettingReady = 1.35;

describe("Home cards", () => {
  it("are given, printed two on a sheet in the family's language, and typed in by single keys", async () => {
    const page = await app.open();
    await makeGroup(page, "Table two", ["Fern", "Robin", "Ash"]);
    expect(await link(page, "Home cards").count()).toBe(0);
    await giveCard(page, "Fern", "1 to 5, and 5 is best");
    await link(page, "Table two").first().click();
    await giveCard(page, "Robin", "1 to 5, and 1 is best");
    await link(page, "Table two").first().click();
    await giveCard(page, "Ash", "Yes or no");
    await link(page, "Table two").first().click();
    await openOf(page, "Robin", "What was agreed");
    await button(page, /Language of Robin/).click();
    await page.getByRole("option", { name: "Español" }).click();
    await button(page, /Español/).waitFor();
    // Whatever day it is, the group sits on it.
    await link(page, "Table two").first().click();
    for (const day of ["Saturday", "Sunday"]) await page.getByText(day, { exact: true }).click();
    await page.getByRole("checkbox", { name: "Sunday", checked: true }).waitFor();
    await link(page, "Today").click();
    await page.getByText("3 home cards of Table two for today.").waitFor();
    await link(page, "Print the home cards of Table two").click();
    await page.locator(".sheet").nth(1).waitFor();
    expect(await page.locator(".sheet").count()).toBe(2);
    await page.getByRole("heading", { name: "Fern’s card" }).waitFor();
    await page.getByRole("heading", { name: "Tarjeta de Robin" }).waitFor();
    await page.getByText(/encierre en un círculo: 1 es lo mejor/).waitFor();
    await link(page, "Home cards").click();
    // The first box has the hand already.
    await box(page, "Fern, Reading, Begin at once: not rated")
      .and(page.locator(":focus"))
      .waitFor();
    let keys = 0;
    const press = async (text: string) => {
      for (const key of text) {
        keys += 1;
        await page.keyboard.press(key === "\n" ? "Enter" : key === " " ? "Space" : key);
      }
    };
    await press("545455455 34\n");
    await press("112121112321\n");
    await press("yynyyyyyynyy");
    const seconds = (keys / 3) * (slowestStroke + gettingReady);
    expect(seconds).toBeLessThan(60);
    // A key that the card has not is said, and nothing is lost.
    await press("7");
    await page.getByText("This card is rated with yes (Y) or no (N).").waitFor();
    const fern = page.getByRole("region", { name: "Fern" });
    await fern.getByLabel("What went well").fill("Began the sums by herself");
    await fern.getByText(/home points · 11 of 12 boxes · 86%/).waitFor();
    await page.getByText("All saved.").waitFor();
    await page.reload();
    await box(page, "Robin, Reading, Begin at once: 1").waitFor();
    await box(page, "Ash, Reading, Tidy up: N").waitFor();
    await box(page, "Fern, Art, Begin at once: not rated").waitFor();
    expect(await fern.getByLabel("What went well").inputValue()).toBe("Began the sums by herself");
    await link(page, "Pages for the week").click();
    await page.getByRole("heading", { name: "Fern’s week" }).waitFor();
    await page.getByText(/: Began the sums by herself/).waitFor();
    await page.getByRole("heading", { name: "La semana de Robin" }).waitFor();
    expect(await page.locator(".sheet").count()).toBe(3);
    // All are typed in: nothing waits any more.
    await link(page, "Home cards").click();
    await link(page, "Today").click();
    await link(page, "Table two").first().waitFor();
    await page.waitForFunction(() => !document.body.textContent?.includes("home cards of"));
  });

  it("stop by one private switch, and no paper or screen but the student's own says so", async () => {
    const page = await app.open();
    await makeGroup(page, "Table two", ["Fern", "Robin"]);
    await giveCard(page, "Fern", "1 to 5, and 5 is best");
    await link(page, "Table two").first().click();
    await giveCard(page, "Robin", "1 to 5, and 5 is best");
    await page.getByText("No card goes home for now").click();
    await page.getByRole("switch", { name: "No card goes home for now", checked: true }).waitFor();
    await link(page, "Table two").first().click();
    await link(page, "Home cards").click();
    await page.getByRole("region", { name: "Fern" }).waitFor();
    expect(await page.getByText("Robin").count()).toBe(0);
    await link(page, "Print all for this day").click();
    await page.getByRole("heading", { name: "Fern’s card" }).waitFor();
    expect(await page.getByText("Robin").count()).toBe(0);
    await page.goBack();
    await box(page, "Fern, Reading, Begin at once: not rated").click();
    await page.keyboard.press("5");
    await page.getByText("All saved.").waitFor();
    await link(page, "Pages for the week").click();
    await page.getByRole("heading", { name: "Fern’s week" }).waitFor();
    expect(await page.getByText("Robin").count()).toBe(0);
  });

  it("of the day before are offered to whoever types them in the next morning", async () => {
    const page = await app.open();
    await makeGroup(page, "Table two", ["Fern", "Robin"]);
    // Whatever day it is, the group sat on the one before.
    for (const day of ["Saturday", "Sunday"]) await page.getByText(day, { exact: true }).click();
    await page.getByRole("checkbox", { name: "Sunday", checked: true }).waitFor();
    await openOf(page, "Fern", "Home card");
    await page.getByLabel("From this day on").fill("2026-01-05");
    await button(page, "Save this card").click();
    await page.getByText(/^Saved: from/).waitFor();
    await link(page, "Table two").first().click();
    await link(page, "Home cards").click();
    const today = await page.getByLabel("Day", { exact: true }).inputValue();
    await button(page, /^1 card of .* not typed in: go to that day$/).click();
    await expect.poll(() => page.getByLabel("Day", { exact: true }).inputValue()).not.toBe(today);
    await page
      .getByRole("gridcell", { name: /^Fern, .*: not rated$/ })
      .first()
      .click();
    await page.keyboard.press("1");
    // What was typed a moment ago is kept, also where the day is changed at once.
    await page.getByLabel("Day", { exact: true }).fill(today);
    await page.getByRole("region", { name: "Fern" }).waitFor();
    await expect.poll(() => button(page, /not typed in/).count(), { timeout: 15_000 }).toBe(0);
  });
});
