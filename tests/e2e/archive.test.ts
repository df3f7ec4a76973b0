import { readFileSync } from "node:fs";
import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { schemaErrors } from "./support/schema-errors.ts";
import { button } from "./support/steps.ts";

const app = oneApp();
const group = "Sample class (invented)";

async function archivedUntil(page: Page, day: string): Promise<void> {
  await page.goto(`${new URL(page.url()).origin}/groups`);
  await button(page, `Archive ${group}`).click();
  await button(page, `Keep ${group} until a day`).click();
  await page.getByLabel("Keep until", { exact: true }).fill(day);
  await button(page, "Keep until this day").click();
  await page.getByRole("dialog").waitFor({ state: "hidden" });
}

describe("An archived group", () => {
  it("is kept until a day, and Today offers its records and its erasure when the day has come", async () => {
    const page = await app.open("--sample");
    const { origin } = new URL(page.url());
    await page.locator(".today-group").waitFor();
    await archivedUntil(page, "2099-06-30");
    await page.getByText("Kept until Jun 30, 2099.").waitFor();
    // Not yet: nothing of it stands on Today.
    await page.goto(origin);
    await page.getByLabel("Group name").waitFor();
    expect(await page.getByText("that day has come").count()).toBe(0);

    await page.goto(`${origin}/groups`);
    await button(page, `Keep ${group} until a day`).click();
    await page.getByLabel("Keep until", { exact: true }).fill("2026-01-31");
    await button(page, "Keep until this day").click();
    await page.getByText(`${group} was to be kept until Jan 31, 2026, and`).waitFor();
    await page.goto(origin);
    await page.getByText(`${group} was to be kept until Jan 31, 2026, and`).waitFor();

    const [download] = await Promise.all([
      page.waitForEvent("download"),
      button(page, `Save the records of ${group}`).click(),
    ]);
    const record = readFileSync(await download.path(), "utf8");
    expect(schemaErrors("group-record", record)).toEqual([]);
    expect(JSON.parse(record).students).toHaveLength(8);
    await page.getByText(/^Saved: /).waitFor();

    await button(page, `Erase ${group} for good`).click();
    const dialog = page.getByRole("alertdialog");
    for (const goes of [
      "every student",
      "what they earned",
      "home cards",
      "words to families",
      "backups",
    ]) {
      await dialog.getByText(goes).first().waitFor();
    }
    await dialog.getByRole("button", { name: "Erase the group" }).click();
    await dialog.getByText(/^Removed: 8 students and \d+ sessions/).waitFor();
    await dialog.getByRole("button", { name: "Close" }).click();
    expect(await page.getByText("was to be kept until").count()).toBe(0);
    await page.goto(`${origin}/groups`);
    await page.getByRole("heading", { name: "Groups", level: 1 }).waitFor();
    expect(await page.getByText(group).count()).toBe(0);
  });
});
