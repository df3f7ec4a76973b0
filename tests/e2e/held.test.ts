import type { Page } from "playwright";
import { expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";

const app = oneApp();

const button = (page: Page, name: string | RegExp) => page.getByRole("button", { name });
const link = (page: Page, name: string | RegExp) => page.getByRole("link", { name }).first();

it("a substitute's session is entered from the printed cue times and goes on to its cards", async () => {
  const page = await app.open();
  await page.getByLabel("Group name").fill("Room 12");
  await button(page, "Make this group").click();
  await page.getByLabel("Add students").fill("Fern\nRobin");
  await button(page, "Add 2 students").click();
  await page.getByText("Robin", { exact: true }).waitFor();
  const plan = link(page, /^First plan$/);
  const planId = (await plan.getAttribute("href"))?.split("/").at(-1) ?? "";

  // What the substitute had on paper.
  await page.goto(new URL(`/print/cue-key/${planId}?seed=heron`, page.url()).href);
  const rows = page.locator(".paper-table tbody tr");
  await rows.first().waitFor();
  const onPaper = await rows.count();
  expect(onPaper).toBeGreaterThan(2);

  await page.goto(new URL("/", page.url()).href);
  await link(page, "Enter a session run without the app: Room 12").click();
  const enter = button(page, "Enter this session");
  await enter.waitFor();
  expect(await enter.isDisabled()).toBe(true);
  await page.getByLabel("Day", { exact: true }).fill("2026-03-05");
  await page.getByLabel("Began at").fill("10:20");
  await page.getByLabel("Who led it").fill("a substitute");
  await page.getByRole("textbox", { name: "Seed" }).fill("heron");
  await page.getByText(`${onPaper} cues are on this sheet`).waitFor();
  // The second cue drowned in a drill.
  await page.getByRole("checkbox", { name: /^2: / }).uncheck({ force: true });
  await button(page, "Absent: Robin").click();
  await enter.click();

  await page.getByRole("heading", { name: "Cards of Room 12" }).waitFor();
  await page.getByText(`${onPaper - 1} cues came.`).waitFor();
  await page.getByText("· absent").waitFor();
  await page.getByRole("gridcell", { name: /^Fern, box 1:/ }).focus();
  await page.keyboard.type("+-+");
  await page.keyboard.press("Enter");
  await page.getByText("All saved").waitFor();

  // The same once more is refused, in words.
  await page.goBack();
  await page.getByLabel("Day", { exact: true }).fill("2026-03-05");
  await page.getByLabel("Began at").fill("10:20");
  await page.getByRole("textbox", { name: "Seed" }).fill("heron");
  await enter.click();
  await page.getByText(/already has a session that began at this time/).waitFor();
});
