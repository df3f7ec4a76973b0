import type { Locator, Page } from "playwright";
import { beforeEach, describe, expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { button, link } from "./support/steps.ts";

// The contrast themes of an operating system, as Chromium imitates them: every colour of ours is taken
// away. WCAG 2.2, success criteria 1.4.1 and 1.4.11, hold there too.

const app = oneApp();
let page: Page;
beforeEach(async () => {
  page = await app.open("--sample");
});

const look = (control: Locator): Promise<Buffer> =>
  control.screenshot({ animations: "disabled", caret: "hide" });

/** How a control looks before a press and after it, with the focus and the pointer elsewhere both times. */
async function beforeAndAfter(control: Locator): Promise<readonly [Buffer, Buffer]> {
  const away = async () => {
    await page.mouse.move(0, 0);
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  };
  await control.scrollIntoViewIfNeeded();
  await away();
  const before = await look(control);
  await control.click();
  await away();
  await page.waitForTimeout(300);
  return [before, await look(control)];
}

describe.each(["light", "dark"] as const)("In a contrast theme on %s ground", (colorScheme) => {
  beforeEach(() => page.emulateMedia({ forcedColors: "active", colorScheme }));

  it("radios, switches and check boxes show what is chosen", async () => {
    await link(page, "Settings").click();
    const checked = async (control: Locator) => {
      const [before, after] = await beforeAndAfter(control);
      expect(before.equals(after), (await control.textContent()) ?? "").toBe(false);
    };
    await checked(page.locator(".field-choice", { hasText: /^Letter$/ }));
    await checked(page.locator(".field-switch").first());
    await link(page, "Groups").first().click();
    await link(page, /Sample class/)
      .first()
      .click();
    await link(page, "Watch without cueing").click();
    await checked(page.locator(".observe-students .check-box").first());
  });

  it("the view that is shown is told from the others, and what can be pressed from what cannot", async () => {
    await button(page, /Start a session with/)
      .first()
      .click();
    const hear = button(page, "Hear the chime");
    if (await hear.isVisible()) await hear.click();
    await button(page, "Start the session").click();
    const board = button(page, "Class board");
    await board.waitFor();
    const [before, after] = await beforeAndAfter(board);
    expect(before.equals(after)).toBe(false);
  });

  it("charts are drawn in the theme's colours, in every theme of ours", async () => {
    await link(page, "Settings").click();
    for (const theme of ["High contrast", "Light", "Dark"]) {
      await page.getByText(theme, { exact: true }).click();
      await link(page, "Progress").first().click();
      await link(page, /Sample class/)
        .first()
        .click();
      const chart = page.locator("figure svg").first();
      await chart.waitFor();
      const colours = await chart.evaluate((svg) => {
        const probe = document.createElement("p");
        probe.style.cssText = "forced-color-adjust: none; color: CanvasText; background: Canvas";
        svg.after(probe);
        const { color, backgroundColor } = getComputedStyle(probe);
        probe.remove();
        const texts = [...svg.querySelectorAll("text")].map((each) => getComputedStyle(each).fill);
        return { color, backgroundColor, texts: [...new Set(texts)] };
      });
      expect(colours.color).not.toBe(colours.backgroundColor);
      expect(colours.texts.length, theme).toBeGreaterThan(0);
      for (const text of colours.texts) expect(text, theme).not.toBe(colours.backgroundColor);
      await link(page, "Settings").click();
    }
  });
});
