import type { Page } from "playwright";
import { expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { silentClass } from "./support/silent-class.ts";
import { answerOnTile, button, showTiles } from "./support/steps.ts";

// Nothing that children or the adult may be pressing ever moves: the boxes of all pressable things are
// measured before, during and after a cue, a check, a pause and a message.

const app = oneApp();
const names = Array.from({ length: 12 }, (_, index) => `Student ${index + 1}`);

/** Remembers where everything pressable stands now; says afterwards what of it has moved. */
async function watchBoxes(page: Page): Promise<(when: string) => Promise<void>> {
  await page.evaluate(() => {
    const places = new Map<Element, string>();
    const pressable = "button, a, label, input, [role=switch], [role=radio]";
    const isSeen = (each: Element) => each.checkVisibility({ visibilityProperty: true });
    const boxOf = (each: Element) => {
      const { x, y, width, height } = each.getBoundingClientRect();
      return [x, y, width, height].map((side) => side.toFixed(1)).join(" ");
    };
    const moved = () => {
      const found: string[] = [];
      for (const each of document.querySelectorAll(pressable)) {
        if (!isSeen(each) || each.closest("[role=dialog]") !== null) continue;
        const before = places.get(each);
        const now = boxOf(each);
        const name = each.getAttribute("aria-label") ?? each.textContent ?? "";
        if (before !== undefined && before !== now) found.push(`${name}: ${before} to ${now}`);
        if (before === undefined) places.set(each, now);
      }
      return found;
    };
    Object.assign(window, { moved });
  });
  return async (when) => {
    // The slowest change of look takes 600 ms; a place must not change at all.
    await page.waitForTimeout(100);
    expect([when, await page.evaluate("moved()")]).toEqual([when, []]);
  };
}

it.each([
  { width: 1366, height: 768 },
  { width: 1920, height: 1080 },
])(
  "Nothing pressable moves at a cue, a check, a pause or a message, at $width by $height",
  async (size) => {
    silentClass(app.folder(), names, { plan: { checkPace: "every", studentsPerCheck: 2 } });
    const page = await app.open("--speed", "4");
    await page.setViewportSize(size);
    await button(page, "Start a session with Room 12").click();
    await button(page, "Start the session").click();
    await page.waitForURL(/\/session\//);
    const tiles = await app.another("/tiles");
    await tiles.setViewportSize(size);
    await tiles.locator(".tile").first().waitFor();
    await showTiles(page);
    await page.waitForTimeout(500);
    const still = await watchBoxes(page);
    const tilesStill = await watchBoxes(tiles);
    const both = async (when: string) => {
      await still(when);
      await tilesStill(`${when}, on the tiles`);
    };
    await both("before the first cue");

    await page.locator(".tile-asked").first().waitFor({ timeout: 30_000 });
    await both("at a cue with a check");
    await page.waitForTimeout(400);
    await button(page, "Look now").click();
    await both("with the check open");
    await answerOnTile(page, "Student 1", "yes");
    await both("after a mark");
    await page.keyboard.press("1");
    await both("after a check's answer");
    await button(page, "Check someone").click();
    await page.getByText("The class can see this screen").waitFor();
    await both("with a slip open");
    await page.keyboard.press("Escape");

    await button(page, "Pause").click();
    await page.locator(".tile-waiting").first().waitFor();
    await both("paused");
    await page.waitForTimeout(400);
    await button(page, "Resume").click();
    await page.locator(".tile-asked").first().waitFor();
    await both("resumed");

    // The message that the line is lost lies over the page.
    await app.loseHost();
    await page.locator(".frame-lost").waitFor({ timeout: 30_000 });
    await tiles.locator(".frame-lost").waitFor({ timeout: 30_000 });
    await both("with a message");
  },
);
