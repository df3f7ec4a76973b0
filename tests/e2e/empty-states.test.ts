import { expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";

const app = oneApp();

it("every page of a group without students leads to where they are added, and to what else is missing", async () => {
  const page = await app.open();
  await page.getByLabel("Group name").fill("Blue table");
  await page.keyboard.press("Enter");
  await page.getByLabel("Add students").waitFor();
  const { pathname, origin } = new URL(page.url());
  const open = async (path: string) => {
    await page.goto(origin + pathname + path);
    await page.locator(".page-head h1").waitFor();
  };
  // Beside the way back above the title.
  const leads = (to: string) => page.locator(`main .page > :not(.page-head) a[href="${to}"]`);
  for (const path of ["/room", "/held", "/observe", "/pairs", "/teams", "/home-cards"]) {
    await open(path);
    await leads(pathname).waitFor();
    expect(await page.locator("main .page :is(input, select):visible").count(), path).toBe(
      path === "/home-cards" ? 1 : 0,
    );
  }
  await open("/seats");
  await leads("/settings").waitFor();
  await open("/points");
  await page.getByRole("link", { name: "First plan" }).click();
  await page.locator(".plan-happens-cues").waitFor();
});
