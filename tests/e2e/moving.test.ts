import type { Page } from "playwright";
import { afterAll, beforeAll, expect, it } from "vitest";
import { launchLoopback } from "./support/launch.ts";
import { button, link, makeGroup } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const folder = temporaryFolder();
let app: Awaited<ReturnType<typeof launchLoopback>>;
let page: Page;

beforeAll(async () => {
  app = await launchLoopback({ dataFolder: folder.path });
  page = await app.page();
});

afterAll(async () => {
  await app.close();
  folder.remove();
});

const menuOf = async (name: string, entry: string) => {
  await button(page, `More for ${name}`).click();
  await page.getByRole("menuitem", { name: entry }).click();
};

it("One student has an own hold goal and an own target, and moves to another group with them", async () => {
  await makeGroup(page, "Room 4", ["Ash", "Birch"]);
  // Pictures are handed out without being asked for.
  await expect.poll(() => page.locator(".groups-student .picture").count()).toBe(2);
  await menuOf("Ash", "Change");
  const dialog = page.getByRole("dialog", { name: /Ash/ });
  await dialog.getByText(/^A hold goal of their own, instead of the group’s 80%/).click();
  await dialog.getByLabel("Own hold goal").fill("60");
  await page.keyboard.press("Tab");
  await dialog.getByLabel("A target of their own").fill("I ask when I am stuck.");
  await dialog.getByRole("button", { name: "Save" }).click();
  await page.getByText("Own hold goal: 60%").waitFor();
  await page.getByText("I ask when I am stuck.").waitFor();

  await link(page, "Groups").first().click();
  await page.getByRole("heading", { name: "Groups", exact: true }).waitFor();
  await makeGroup(page, "Room 5", ["Cedar", "Elm"]);
  await link(page, "Groups").first().click();
  await page.getByRole("heading", { name: "Groups", exact: true }).waitFor();
  await page.getByRole("link", { name: "Room 4", exact: true }).click();
  await page.getByRole("heading", { name: "Room 4", exact: true }).waitFor();
  await menuOf("Ash", "Move to another group");
  const moving = page.getByRole("dialog", { name: "Move Ash to another group" });
  await moving.getByText("Sessions until now stay in this group’s numbers.").waitFor();
  await moving.getByRole("button", { name: "Move", exact: true }).click();
  await moving.getByText("Ash is now in Room 5.").waitFor();
  await moving.getByRole("link", { name: "Open that group" }).click();
  await page.getByRole("heading", { name: "Room 5", exact: true }).waitFor();
  await page.getByText("Own hold goal: 60%").waitFor();
  await link(page, "Ash").first().click();
  await page.getByRole("heading", { name: "Ash", exact: true }).waitFor();
});

it("a plan is copied, and the group then has several", async () => {
  await link(page, "Groups").first().click();
  await page.getByRole("heading", { name: "Groups", exact: true }).waitFor();
  await page.getByRole("link", { name: "Room 4", exact: true }).click();
  await page.getByRole("heading", { name: "Room 4", exact: true }).waitFor();
  await menuOf("First plan", "Copy this plan");
  await page.getByRole("link", { name: "First plan, copy", exact: true }).waitFor();
  await link(page, "Today").click();
  await page
    .getByRole("article", { name: "Room 4" })
    .getByRole("button", { name: /Plan/ })
    .waitFor();
});
