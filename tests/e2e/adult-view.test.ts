import type { Page } from "playwright";
import { expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { answerOnTile } from "./support/steps.ts";

const app = oneApp();

const button = (page: Page, name: string | RegExp) => page.getByRole("button", { name });
const link = (page: Page, name: string) => page.getByRole("link", { name, exact: true }).first();

async function start(page: Page): Promise<void> {
  await page.getByLabel("Group name").fill("Room 12");
  await button(page, "Make this group").click();
  await page.getByLabel("Add students").fill("Fern\nRobin\nSorrel");
  await button(page, "Add 3 students").click();
  await page.getByText("Sorrel", { exact: true }).waitFor();
  await link(page, "Today").click();
  await button(page, "Start a session with Room 12").click();
  await button(page, "Absent: Sorrel").click();
  await button(page, "Start the session").click();
  await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
}

const view = (page: Page) => page.getByRole("region", { name: "Teacher’s view" });

it("turns to the teacher's view with the tiles elsewhere, which says who has answered and names nobody unasked", async () => {
  const page = await app.open("--speed", "8");
  await start(page);
  const opening = page.waitForEvent("popup");
  await page.getByRole("button", { name: "Class screen", exact: true }).click();
  await button(page, "In a separate window").click();
  const tiles = await opening;
  await view(page).waitFor();
  expect(await view(page).getByText("Fern").count()).toBe(0);
  await view(page).getByText("absent", { exact: true }).waitFor();
  await answerOnTile(tiles, "Fern", "yes");
  await view(page)
    .getByText(/1 answered, 1 not yet, 1 absent/)
    .waitFor();
  await page.getByText("Names on this screen").click();
  await view(page).getByRole("listitem").filter({ hasText: "Fern" }).waitFor();
  // What was answered stands nowhere.
  expect(
    await view(page)
      .getByText(/yes|working/i)
      .count(),
  ).toBe(0);

  // Sorrel arrives late, Robin leaves early.
  await button(page, "Here: Sorrel").click();
  await button(page, "Absent: Sorrel").waitFor();
  await button(page, "Absent: Robin").click();
  await view(page)
    .getByText(/1 absent/)
    .waitFor();

  await page.getByRole("button", { name: "End", exact: true }).click();
  await button(page, /^End it$|^End session$/).click();
  const row = (name: string) =>
    page.getByRole("row").filter({ has: page.getByRole("rowheader", { name }) });
  await row("Robin").getByText("Left early, nothing recorded").waitFor();
  await row("Sorrel").getByText("Came late, nothing recorded").waitFor();
});

it("notes an interruption in one press, with a pause or without, and repeats the chime", async () => {
  const page = await app.open("--speed", "30");
  await start(page);
  const repeat = button(page, "Repeat the chime");
  expect(await repeat.isDisabled()).toBe(true);
  await expect.poll(() => repeat.isEnabled(), { timeout: 60_000 }).toBe(true);
  await repeat.click();
  const strip = page.getByRole("region", { name: "Teacher’s strip" });
  await page.getByText("Pause as well").click();
  await button(page, "Visitor").click();
  await page.getByText("Noted: Visitor").waitFor();
  await strip.getByText("Running", { exact: true }).waitFor();
  await page.getByText("Pause as well").click();
  await button(page, "Drill").click();
  await page.getByText("Noted: Drill").waitFor();
  await strip.getByText("Paused", { exact: true }).waitFor();

  // From the strip too, beside the button and over nothing that students look at.
  const panel = page.getByRole("dialog", { name: "Interruption" });
  await button(page, "Interruption").click();
  await panel.getByLabel("What happened").fill("The lights went out");
  await panel.getByRole("button", { name: "Save" }).click();
  await panel.getByText("Noted: The lights went out").waitFor();
  await page.keyboard.press("Escape");
  await panel.waitFor({ state: "hidden" });
  await page.getByRole("button", { name: "End", exact: true }).click();
  await button(page, /^End it$|^End session$/).click();
  // No names were shown here, so perhaps the class sees this screen.
  await button(page, "Show the results").click();
  await page.getByRole("listitem").filter({ hasText: "Visitor" }).waitFor();
  await page.getByRole("listitem").filter({ hasText: "The lights went out" }).waitFor();
  await page.getByRole("listitem").filter({ hasText: "Drill" }).waitFor();
});
