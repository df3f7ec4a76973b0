import type { Page } from "playwright";
import { expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";

const app = oneApp();
const saidOfCues = /first cue|last cue|exchange/i;

const button = (page: Page, name: string | RegExp) => page.getByRole("button", { name });

async function startFirst(page: Page): Promise<void> {
  await page.getByLabel("Group name").fill("Room 12");
  await button(page, "Make this group").click();
  await page.getByLabel("Add students").fill("Fern\nRobin");
  await button(page, "Add 2 students").click();
  await page.getByText("Robin", { exact: true }).waitFor();
  await page.getByRole("link", { name: "Today", exact: true }).click();
  await button(page, "Start a session with Room 12").click();
  await button(page, "Start the session").click();
  await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
}

async function end(page: Page): Promise<void> {
  await button(page, "End").click();
  await button(page, "End it").or(button(page, "End session")).click();
}

it("a session ended before any cue talks of no first or last cue and of no exchange", async () => {
  const page = await app.open();
  await startFirst(page);
  await end(page);
  await button(page, "Show the results").waitFor();
  expect(await page.getByText(saidOfCues).count()).toBe(0);
  await button(page, "Show the results").click();
  await page.getByText("No cue came, so there is nothing to record.").waitFor();
  expect(await page.getByText(saidOfCues).count()).toBe(0);
});

it("a trial is left out with its reason, and counted again", async () => {
  const page = await app.open("--speed", "60");
  await startFirst(page);
  await expect
    .poll(() => page.locator(".strip-fact", { hasText: "Cues" }).textContent(), { timeout: 30_000 })
    .not.toMatch(/0$/);
  await end(page);
  await button(page, "Show the results").click();
  await button(page, "Don’t count this session").click();
  await page.getByText("Another reason").click();
  const leave = button(page, "Leave it out");
  expect(await leave.isDisabled()).toBe(true);
  await page.getByLabel("The reason").fill("The window was open");
  await leave.click();
  await page.getByText("This session is not counted").waitFor();
  await page.getByText(/The window was open/).waitFor();
  await page.getByRole("link", { name: "See progress" }).first().click();
  await page.getByRole("heading", { name: /Room 12/ }).waitFor();
  expect(await page.getByText(/\b1 session\b/).count()).toBe(0);
  await page.getByRole("link", { name: "Today", exact: true }).click();
  await page.getByText("not counted").waitFor();
  await page
    .getByRole("link", { name: "See or correct" })
    .or(page.getByRole("link", { name: "Review" }))
    .first()
    .click();
  await button(page, "Count it again").click();
  await button(page, "Don’t count this session").waitFor();
});
