import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { button, link } from "./support/steps.ts";

const app = oneApp();

/** The invented class's program, with a goal that its records hold, so that thinning is advised. */
async function thinningAdvised(page: Page): Promise<void> {
  await link(page, "Progress").first().click();
  await page.locator("main a[href^='/progress/']").first().click();
  await page.getByText("What this advice is based on").click();
  await button(page, "Change the goal or the steps").click();
  await page.getByLabel("Goal to hold").fill("50");
  await page.keyboard.press("Tab");
  await page.locator(".progress-form").getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("Thin the cues.", { exact: true }).waitFor();
}

async function toPoints(page: Page): Promise<void> {
  await link(page, "Groups").first().click();
  await page.locator("main a[href^='/groups/']").first().click();
  await page.locator("main").getByRole("link", { name: "Points", exact: true }).click();
}

describe("Points over weeks", () => {
  it("pay as much for fewer cues where that is accepted, with the income before and after", async () => {
    const page = await app.open("--sample");
    await thinningAdvised(page);
    await page.getByText(/“Each recorded mark” from 1 to 2/).waitFor();
    const told = page.getByText(
      /^A student earns about \d+ points a session now, and about \d+ then\.$/,
    );
    await expect.poll(() => told.count(), { timeout: 15_000 }).toBe(2);
    const incomes = await told.allInnerTexts();
    const [raised = [], kept = []] = incomes.map((text) => (text.match(/\d+/g) ?? []).map(Number));
    expect(raised[1]).toBeGreaterThanOrEqual(raised[0] ?? 0);
    expect(kept[1]).toBeLessThan(kept[0] ?? 0);
    await button(page, "Do it: change the plan").click();
    await page
      .locator(".progress-facts")
      .getByText("a cue about every 3 minutes")
      .first()
      .waitFor();
    await link(page, "Groups").first().click();
    await page.locator("main a[href^='/groups/']").first().click();
    await page.locator("a[href*='/plans/']").first().click();
    await page.getByText(/^More: sound, spot checks/).click();
    // The usual rule stays the usual rule, and pays twice as much.
    await page.getByText(/^2 points for each recorded mark/).waitFor();
  });

  it("end with a week to spend what is left, which the list on the wall names", async () => {
    const page = await app.open("--sample");
    await toPoints(page);
    await page.getByText("End points for this group").click();
    await button(page, /^End points; exchange until/).click();
    await page.getByText(/^Points can be exchanged until/).waitFor();
    expect(await page.getByText("Prices that fit what the group earns").count()).toBe(0);
    // What is left can still be spent, and the list on the wall says until when.
    await page.locator(".points-row").first().focus();
    await page.keyboard.press("1");
    await page.getByRole("status").getByText("Choose my seat for a lesson").waitFor();
    await link(page, "Print the price list").click();
    await page.getByText(/^Points can be exchanged until/).waitFor();
  });
});

describe("Where a school wants no points", () => {
  it("nothing of them is on any screen or sheet, and what was earned is there again later", async () => {
    const page = await app.open("--sample");
    await toPoints(page);
    const purse = await page.locator(".points-purse").first().textContent();
    const address = page.url();
    const usesPoints = async () => {
      await link(page, "Settings").first().click();
      await page.getByText("Points can be used").click();
    };
    await usesPoints();
    const said = () => page.locator("main").getByText(/\bpoints?\b/i);
    await link(page, "Groups").first().click();
    await page.locator("main a[href^='/groups/']").first().click();
    await page.locator("a[href*='/plans/']").first().waitFor();
    // Until the change has come round the link may stand there for a moment.
    await expect.poll(() => said().allInnerTexts()).toEqual([]);
    await page.locator("a[href*='/plans/']").first().click();
    await page.getByText(/^More: sound, spot checks/).click();
    await page.getByLabel("Never closer than").waitFor();
    expect(await page.getByText("What earns points").count()).toBe(0);
    await link(page, "Progress").first().click();
    await page.locator("main a[href^='/progress/']").first().click();
    await page.getByText("What this advice is based on").click();
    await button(page, "Change the goal or the steps").waitFor();
    expect(await page.getByText("paid for self-records").count()).toBe(0);
    // Whoever has the address of the page finds nothing there either.
    await page.goto(address);
    await page.getByText("Points are switched off on this computer.").waitFor();
    expect(await page.locator(".points-row").count()).toBe(0);
    await usesPoints();
    await page.goto(address);
    await page.locator(".points-purse").first().waitFor();
    expect(await page.locator(".points-purse").first().textContent()).toBe(purse);
  });
});
