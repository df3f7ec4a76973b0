import type { Page } from "playwright";
import { expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";

const app = oneApp();

const button = (page: Page, name: string | RegExp) => page.getByRole("button", { name });
const link = (page: Page, name: string) => page.getByRole("link", { name, exact: true });
const sheet = (page: Page) => page.getByRole("dialog", { name: "Who is here today?" });

async function makeGroup(page: Page): Promise<void> {
  await page.getByLabel("Group name").fill("Room 12");
  await button(page, "Make this group").click();
  await page.getByLabel("Add students").fill("Fern\nRobin\nSorrel");
  await button(page, "Add 3 students").click();
  await page.getByText("Sorrel", { exact: true }).waitFor();
  await link(page, "Today").first().click();
}

async function end(page: Page): Promise<void> {
  await page.getByRole("button", { name: "End", exact: true }).click();
  await button(page, /^End it$|^End session$/).click();
  await button(page, "Show the results").click();
}

const rowOf = (page: Page, name: string) =>
  page.getByRole("row").filter({ has: page.getByRole("rowheader", { name }) });

it("asks who is here: one press for who is absent, and one to go on when everybody is here", async () => {
  const page = await app.open("--speed", "60");
  await makeGroup(page);
  await button(page, "Start a session with Room 12").click();
  await page.getByText("Everybody is here. Press the name of each absent student.").waitFor();
  await button(page, "Absent: Robin").click();
  await page.getByText("2 here, 1 absent.").waitFor();
  await button(page, "Start the session").click();
  await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
  await expect
    .poll(() => page.locator(".strip-fact", { hasText: "Cues" }).textContent(), { timeout: 30_000 })
    .not.toMatch(/0$/);
  await end(page);
  await rowOf(page, "Robin").getByText("Absent", { exact: true }).waitFor();
  await rowOf(page, "Fern").getByText("Nothing recorded yet").waitFor();

  // On the record page the same word; one press when the student was there after all.
  await link(page, "See or correct the marks").or(link(page, "Review the marks")).click();
  await page.getByText("· absent").waitFor();
  await button(page, "Here: Robin").click();
  await button(page, "Absent: Robin").waitFor();

  // Everybody here is the default, and the press that goes on has the focus. The first start was
  // not preceded by the chime, so the second one is.
  await link(page, "Today").first().click();
  await button(page, "Start a session with Room 12").click();
  await button(page, "Hear the chime").click();
  await page.getByText("It has just been played.").waitFor();
  await button(page, "Yes, it could").click();
  await button(page, "Start the session").click();
  await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
  await end(page);
  await link(page, "Today").first().click();
  await button(page, "Start a session with Room 12").click();
  await sheet(page).waitFor();
  await page.keyboard.press("Enter");
  await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
});

it("does not start a session for nobody", async () => {
  const page = await app.open();
  await makeGroup(page);
  await button(page, "Start a session with Room 12").click();
  for (const name of ["Fern", "Robin", "Sorrel"]) await button(page, `Absent: ${name}`).click();
  await page.getByText("Nobody is here. A session needs at least one student.").waitFor();
  expect(await button(page, "Start the session").isDisabled()).toBe(true);
});
