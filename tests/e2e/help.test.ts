import { expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { button, makeGroup } from "./support/steps.ts";

const app = oneApp();

const focused = "document.activeElement?.closest('label, .field')?.textContent ?? ''";

it("opens beside each screen by a button and by F1, in the language of the app, and covers nothing for good", async () => {
  const page = await app.open();
  await makeGroup(page, "Room 9", ["Ana", "Ben"]);
  const help = page.getByRole("complementary", { name: "Help" });
  await page.keyboard.press("F1");
  await help.getByRole("heading", { name: "One group" }).waitFor();
  await page.keyboard.press("Escape");
  await help.waitFor({ state: "hidden" });
  await page.getByRole("link", { name: "Today" }).click();
  await button(page, "Help").click();
  await help.getByRole("heading", { name: "Today" }).waitFor();
  expect(await button(page, "Help").getAttribute("aria-expanded")).toBe("true");
  // It follows the reader to the next screen's page, and closes by the key that opened it.
  await page.getByRole("link", { name: "Settings" }).click();
  await help.getByRole("heading", { name: "Settings" }).waitFor();
  await page.keyboard.press("F1");
  await help.waitFor({ state: "hidden" });
  await page.getByText("Español", { exact: true }).click();
  await page.getByRole("heading", { name: "Ajustes" }).waitFor();
  await page.keyboard.press("F1");
  const ayuda = page.getByRole("complementary", { name: "Ayuda" });
  await ayuda.getByRole("heading", { name: "Ajustes" }).waitFor();
  await ayuda.getByRole("link", { name: /^La primera semana/ }).click();
  await page.locator(".sheet").getByRole("heading", { name: "Palabras para la clase" }).waitFor();
  expect(await page.locator(".sheet").count()).toBe(2);
});

it("puts the cursor where typing starts, from the empty notebook to the names", async () => {
  const page = await app.open();
  await page.getByLabel("Group name").waitFor();
  await expect.poll(() => page.evaluate(focused)).toContain("Group name");
  await page.keyboard.type("Room 9");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Room 9", exact: true }).waitFor();
  await expect.poll(() => page.evaluate(focused)).toContain("Add students");
  await page.keyboard.type("Ana\nBen");
  await button(page, "Add 2 students").click();
  await page.getByText("Ben", { exact: true }).first().waitFor();
});
