import { expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { button, link, makeGroup } from "./support/steps.ts";

const app = oneApp();

it("stops the program for one child at once, and names whom the school has named", async () => {
  const page = await app.open();
  await makeGroup(page, "Room 9", ["Ana", "Ben", "Cleo"]);
  await link(page, "Settings").click();
  await page
    .getByLabel("Whom to ask when something worries you")
    .fill("Ms Reed, school psychologist, room 4");
  await button(page, "Save").first().click();
  await link(page, "Progress").click();
  await link(page, "Room 9").click();
  await link(page, "Groups").click();
  await link(page, "Room 9").first().click();
  await link(page, "Ana").click();
  await button(page, "Something worries me").click();
  const dialog = page.getByRole("dialog");
  await dialog.getByText("Talk to: Ms Reed, school psychologist, room 4").waitFor();
  await dialog.getByRole("button", { name: "Stop for Ana" }).click();
  await dialog.getByText("Ana is not taking part for now.").waitFor();
  await dialog.getByRole("button", { name: "Close" }).click();
  await link(page, "Today").click();
  await button(page, "Start a session with Room 9").click();
  const roll = page.getByRole("dialog");
  await roll.getByText("Ben", { exact: true }).first().waitFor();
  expect(await roll.getByText("Ana", { exact: true }).count()).toBe(0);
  // The same during a session, from the adult's own view.
  await button(page, "Start the session").click();
  await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
  await button(page, "Teacher’s view").click();
  await page.getByRole("switch", { name: "Names on this screen" }).click({ force: true });
  await button(page, "Something worries me").click();
  await page.getByRole("dialog").getByRole("button", { name: "Ben" }).click();
  await dialog.getByRole("button", { name: "Stop for Ben" }).click();
  await dialog.getByText("Ben is not taking part for now.").waitFor();
  await dialog.getByRole("button", { name: "Close" }).click();
  const cued = page.locator(".adult-student:not(.adult-absent)");
  await expect.poll(() => cued.filter({ hasText: "Ben" }).count()).toBe(0);
  expect(await cued.filter({ hasText: "Cleo" }).count()).toBe(1);
});
