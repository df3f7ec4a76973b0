import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { axeFindings } from "./support/axe.ts";
import { oneApp } from "./support/one-app.ts";
import { appearsMs, button, link, makeGroup, openPlanMore } from "./support/steps.ts";

const app = oneApp();

/** A class on paper whose plan pays, with a session that was held and points that were given. */
async function classWithPoints(page: Page, students: readonly string[]): Promise<void> {
  await makeGroup(page, "Table two", students);
  await page.locator("a[href*='/plans/']").first().click();
  await page.getByText("on paper", { exact: true }).click();
  await openPlanMore(page);
  await page.getByText("The usual", { exact: true }).click();
  await page.getByText("the truth never loses").first().waitFor();
  await page.locator(".plan-foot").getByRole("button", { name: "Save" }).click();
  await page.getByText("Everything on this page is saved.").waitFor();
  await link(page, "Table two").first().click();
  await button(page, "Start a session").click();
  await button(page, "Start the session").click();
  await button(page, "Teacher’s view").click();
  await page.getByText("Names on this screen").click();
  await button(page, "Give points").click();
  for (const name of students) await button(page, `Give ${name} 5 points`).click();
  await page.keyboard.press("Escape");
}

async function endAndExchange(page: Page): Promise<void> {
  await button(page, "End").click();
  await button(page, "End it").click();
  await link(page, "Points").first().click();
  await button(page, "Add a list to start with").click();
  await button(page, "Change Time to draw").click();
  await page.getByLabel("Price in points").fill("4");
  await button(page, "Save").click();
  await page.getByRole("dialog").waitFor({ state: "hidden" });
}

describe("A purse on the class screen", () => {
  it("opens with the student's picture, one at a time, and closes by itself; timers name nobody", async () => {
    const page = await app.open("--speed", "1");
    await classWithPoints(page, ["Fern", "Robin", "Ash"]);
    await endAndExchange(page);
    const [screen] = await Promise.all([
      page.context().waitForEvent("page"),
      button(page, "Class screen")
        .click()
        .then(() => button(page, "In a separate window").click()),
    ]);
    await button(screen, "My points").waitFor();
    await page.waitForTimeout(appearsMs);
    expect(await screen.getByText(/\d/).count()).toBe(0);
    await button(screen, "My points").click();
    await screen.getByText("Press your own picture.").waitFor();
    await screen.waitForTimeout(appearsMs);
    expect(await axeFindings(screen)).toEqual([]);
    await button(screen, "Fern").click();
    await screen.getByText("5 points", { exact: true }).waitFor();
    const opened = Date.now();
    expect(await button(screen, "Robin").count()).toBe(0);
    await screen
      .getByText("5 points", { exact: true })
      .waitFor({ state: "hidden", timeout: 12_000 });
    expect(Date.now() - opened).toBeGreaterThan(6_000);
    // What is saved for is the student's own choice, and stands on the printed slip.
    await screen.waitForTimeout(appearsMs);
    await button(screen, "Robin").click();
    await screen.getByText("What are you saving for?").waitFor();
    await screen.waitForTimeout(appearsMs);
    await button(screen, /^Time to draw/).click();
    await screen.getByText("There is enough for: Time to draw.").waitFor();
    expect(await axeFindings(screen)).toEqual([]);
    await button(screen, "Done").click();
    // Ten minutes of drawing, begun by the adult.
    await page.getByText("One privilege, then names").click();
    await button(page, /^Time to draw/)
      .first()
      .click();
    await button(page, /^Fern 5: Time to draw/).click();
    await button(page, "Show the class 10 minutes of: Time to draw").click();
    await page.getByText("Shown to the class: Time to draw, 10 minutes left").waitFor();
    await screen.waitForTimeout(appearsMs);
    await button(screen, "Close").click();
    await screen.getByText("10 minutes left").waitFor();
    expect(await axeFindings(screen)).toEqual([]);
    expect(await screen.getByText("Fern").count()).toBe(0);
    await link(page, "Print slips").click();
    await page.getByText("I am saving for: Time to draw (4). There is enough.").waitFor();
    // Who chose nothing has a line to write on.
    const line = page.locator(".write-line-room").first();
    expect((await line.boundingBox())?.width ?? 0).toBeGreaterThan(100);
  });
});
