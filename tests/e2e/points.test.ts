import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { paced } from "./support/pace.ts";
import { appearsMs, button, link, makeGroup, openPlanMore } from "./support/steps.ts";

const app = oneApp();
// Invented names, as many as a whole class.
const names = Array.from({ length: 24 }, (_, index) => `Leaf ${index + 1}`);

/** A class on paper whose plan earns by the usual rule; at its plan, saved. */
async function earningClass(page: Page, students: readonly string[]): Promise<void> {
  await makeGroup(page, "Table two", students);
  expect(await link(page, "Points").count()).toBe(0);
  await page.locator("a[href*='/plans/']").first().click();
  await page.getByText("on paper", { exact: true }).click();
  await openPlanMore(page);
  await page.getByText("The usual", { exact: true }).click();
  await page
    .getByText("so the truth never loses")
    .or(page.getByText("the truth never loses"))
    .first()
    .waitFor();
  await page.getByText("Points can be taken back").click();
  await page.locator(".plan-foot").getByRole("button", { name: "Save" }).click();
  await page.getByText("Everything on this page is saved.").waitFor();
  await link(page, "Table two").first().click();
}

async function startPrivately(page: Page): Promise<void> {
  await button(page, "Start a session").click();
  await button(page, "Start the session").click();
  await button(page, "Teacher’s view").click();
  await page.getByText("Names on this screen").click();
}

async function end(page: Page): Promise<void> {
  await button(page, "End").click();
  await button(page, "End it").click();
}

describe("Points", () => {
  it("where always yes pays more than the truth, more checks are offered by a press", async () => {
    const page = await app.open();
    await makeGroup(page, "Table two", ["Fern", "Robin", "Ash"]);
    await page.locator("a[href*='/plans/']").first().click();
    await openPlanMore(page);
    await page.getByText("My own", { exact: true }).click();
    const rule = async (label: string, value: string) => {
      await page.getByLabel(label).fill(value);
      await page.keyboard.press("Tab");
    };
    await rule("Extra for on task", "1");
    await rule("A mark that matches a check", "1");
    await page.getByText("Saying yes every time would pay more").waitFor();
    await button(page, "Check 3 students at every cue").click();
    await page.getByText("The plan now checks often enough for that.").waitFor();
    expect(await page.getByText("At every cue", { exact: true }).count()).toBeGreaterThan(0);
    await page.locator(".plan-foot").getByRole("button", { name: "Save" }).click();
    await page.getByText("A record that tells the truth pays").waitFor();
  });

  it("are given and taken on the private strip alone, by mouse and number pad", async () => {
    const page = await app.open(...paced(4));
    await earningClass(page, ["Fern", "Robin", "Ash"]);
    await startPrivately(page);
    const strip = page.getByRole("group", { name: "Points", exact: true });
    await button(page, "Give points").click();
    await button(page, "Give Fern 1 point").click();
    await button(page, "Give a key to Fern").click();
    await page.keyboard.press("Escape");
    await strip.getByText("Fern: 1 point given.").waitFor();
    // A point given once is not two for one.
    await page.keyboard.press("NumpadSubtract");
    await page.keyboard.press("Numpad1");
    await strip.getByText("Two points are given for each one taken").waitFor();
    // Keys belong to a dialog while it is open.
    await button(page, "End").click();
    await page.getByRole("alertdialog").waitFor();
    await page.keyboard.press("Numpad1");
    await page.keyboard.press("Escape");
    await page.getByRole("alertdialog").waitFor({ state: "hidden" });
    await page.keyboard.press("Numpad1");
    await strip.getByText("Fern: 1 point given.").waitFor();
    await page.keyboard.press("NumpadSubtract");
    await page.keyboard.press("Numpad1");
    await strip.getByText("Fern: 1 point taken.").waitFor();
    await strip.getByRole("button", { name: "Undo" }).click();
    await strip.getByText("Fern: undone.").waitFor();
    // A presenter's start key, which is F5, loads nothing anew, in a pause neither.
    const isLeftToBrowser = () =>
      page.evaluate(() =>
        window.dispatchEvent(new KeyboardEvent("keydown", { code: "F5", cancelable: true })),
      );
    expect(await isLeftToBrowser()).toBe(false);
    await button(page, "Pause").click();
    await button(page, "Resume").waitFor();
    expect(await isLeftToBrowser()).toBe(false);
    await page.waitForTimeout(appearsMs);
    await button(page, "Resume").click();
    await button(page, "Pause").waitFor();
    await button(page, "Take a point…").click();
    await page.getByText("2 given, 0 taken today").waitFor();
    await page.keyboard.press("Escape");
    // Where the class looks nothing of points is shown.
    await button(page, "Class board").click();
    expect(await strip.count()).toBe(0);
    expect(await page.getByText(/point/i).count()).toBe(0);
  });

  it("of 24 cards are typed and exchanged by keyboard, with three and two keys a student", async () => {
    const page = await app.open("--speed", "10");
    await earningClass(page, names);
    await link(page, "Points").click();
    await button(page, "Add a list to start with").click();
    await button(page, "Change Hand out the materials").waitFor();
    await button(page, "Change Choose my seat for a lesson").click();
    await page.getByLabel("Price in points").fill("4");
    await page.getByLabel("Places a day").fill("0");
    await button(page, "Save").click();
    await link(page, "Table two").first().click();
    // By the teacher's own rule a plus pays, however rarely this class is checked.
    await page.locator("a[href*='/plans/']").first().click();
    await openPlanMore(page);
    await page.getByText("My own", { exact: true }).click();
    await page.getByLabel("Extra for on task").fill("1");
    await page.keyboard.press("Tab");
    await page.locator(".plan-foot").getByRole("button", { name: "Save" }).click();
    await page.getByText("Everything on this page is saved.").waitFor();
    await link(page, "Table two").first().click();
    await startPrivately(page);
    await end(page);
    await link(page, "Quick totals").click();
    let keys = 0;
    const press = async (key: string) => {
      keys += 1;
      await page.keyboard.press(key);
    };
    await page.getByLabel("Leaf 1", { exact: true }).waitFor();
    for (const [index] of names.entries()) {
      if (index % 2 === 0) await press("8");
      else {
        await press("1");
        await press("0");
      }
      await press("Tab");
    }
    expect(keys).toBeLessThanOrEqual(3 * names.length);
    await button(page, "Save and exchange").click();
    await page.getByText("8 points").first().waitFor();
    keys = 0;
    await page.locator(".points-row").first().focus();
    for (const name of names) {
      await press("1");
      await page.getByRole("status").getByText(`${name}: Choose my seat for a lesson`).waitFor();
      await press("ArrowDown");
    }
    expect(keys).toBe(2 * names.length);

    // What the last press did, or why it did nothing, stays in sight at the last name, and is taken back there.
    const line = page.locator(".points-newest");
    const isSeen = () =>
      line.evaluate((element) => {
        const { top, bottom } = element.getBoundingClientRect();
        return top >= 0 && bottom <= window.innerHeight;
      });
    const last = page.locator(".points-row").last();
    await last.focus();
    const top = async () => Math.round((await last.boundingBox())?.y ?? Number.NaN);
    const place = await top();
    const owned = await last.locator(".points-purse").textContent();
    await press("8");
    await line.getByText("That did not work").waitFor();
    expect([await isSeen(), await top()]).toEqual([true, place]);
    await press("1");
    await line.getByRole("button", { name: "Undo" }).waitFor();
    expect([await isSeen(), await top()]).toEqual([true, place]);
    await page.waitForTimeout(appearsMs);
    await line.getByRole("button", { name: "Undo" }).click();
    await line.getByText("Choose my seat for a lesson, undone").waitFor();
    await expect.poll(() => last.locator(".points-purse").textContent()).toBe(owned);
  });

  it("of 24 students are exchanged by touch, with one press each", async () => {
    const page = await app.open("--speed", "10");
    await earningClass(page, names);
    await link(page, "Points").click();
    await button(page, "Add a list to start with").click();
    await button(page, "Change Choose my seat for a lesson").click();
    await page.getByLabel("Price in points").fill("4");
    await page.getByLabel("Places a day").fill("0");
    await button(page, "Save").click();
    await page.getByRole("dialog").waitFor({ state: "hidden" });
    await link(page, "Table two").first().click();
    await startPrivately(page);
    await button(page, "Give points").click();
    for (const name of names) {
      await page.getByRole("button", { name: `+5, give ${name} 5 points`, exact: true }).click();
    }
    await page.getByText("Leaf 24: 5 points given.").waitFor();
    await page.keyboard.press("Escape");
    await end(page);
    await link(page, "Points").first().click();
    await page.getByText("One privilege, then names").click();
    const finger = await page.context().newCDPSession(page);
    let presses = 0;
    const touch = async (name: string) => {
      presses += 1;
      const place = page.getByRole("button", { name, exact: true });
      await place.scrollIntoViewIfNeeded();
      const box = await place.boundingBox();
      if (box === null) throw new Error(`${name} is not shown.`);
      // Large enough for a finger (WCAG 2.2, 2.5.8: at least 24 px).
      expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(24);
      const point = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
      await finger.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: [point] });
      await finger.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
      return box;
    };
    await touch("Choose my seat for a lesson 4");
    const last = page.getByRole("button", { name: /^Leaf 24 5:/ });
    await last.waitFor();
    const before = await last.boundingBox();
    for (const name of names) {
      await touch(`${name} 5: Choose my seat for a lesson for 4 points`);
      await page
        .getByRole("status")
        .getByText(`${name}: Choose my seat for a lesson, 4 points`)
        .waitFor();
    }
    expect(presses).toBe(names.length + 1);
    // A press costs an untrained adult pointing 1.1 s, pressing 0.2 s and thinking 1.35 s, as Card, Moran and
    // Newell's keystroke-level model has it (1983; read in the table of the University of Hamburg's pages on
    // evaluating software, GOMS): 24 students take about a minute.
    expect(presses * (1.1 + 0.2 + 1.35)).toBeLessThan(240);
    // Nobody's name moved under the finger.
    const after = await page.getByRole("button", { name: /^Leaf 24 1:/ }).boundingBox();
    expect({ x: after?.x, y: after?.y }).toEqual({ x: before?.x, y: before?.y });
  });

  it("a price that is changed in another window is shown before it is paid, and paid once", async () => {
    const page = await app.open("--speed", "10");
    await earningClass(page, ["Fern", "Robin"]);
    await link(page, "Points").click();
    await button(page, "Add a list to start with").click();
    await button(page, "Change Choose my seat for a lesson").waitFor();
    const address = new URL(page.url()).pathname;
    await link(page, "Table two").first().click();
    await startPrivately(page);
    await button(page, "Give points").click();
    for (const _ of [1, 2]) {
      await page.getByRole("button", { name: "+5, give Fern 5 points", exact: true }).click();
    }
    await page.keyboard.press("Escape");
    await end(page);
    await link(page, "Points").first().click();
    await page.getByText("One privilege, then names").click();
    await page.getByRole("button", { name: /^Choose my seat for a lesson \d+$/ }).click();
    await page.getByRole("button", { name: /^Fern 10: / }).waitFor();

    const other = await app.another(address);
    await button(other, "Change Choose my seat for a lesson").click();
    await other.getByLabel("Price in points").fill("7");
    await button(other, "Save").click();
    await other.getByRole("dialog").waitFor({ state: "hidden" });

    await page
      .getByRole("button", { name: "Fern 10: Choose my seat for a lesson for 7 points" })
      .click();
    await page.getByText("Fern: Choose my seat for a lesson, 7 points").waitFor();
    await page.getByRole("button", { name: /^Fern 3: / }).waitFor();
    // Loaded again in both windows nothing is paid a second time.
    await Promise.all([page.reload(), other.reload()]);
    await other.locator(".points-row", { hasText: "Fern" }).getByText("3 points").waitFor();
  });

  it("are not given by keys while a field or another window has them, and taking is advised against", async () => {
    const page = await app.open(...paced(4));
    await earningClass(page, ["Fern", "Robin", "Ash"]);
    await startPrivately(page);
    const strip = page.getByRole("group", { name: "Points", exact: true });
    await button(page, "Give points").click();
    await button(page, "Give a key to Fern").click();
    await page.getByText("The keys work while this window is in front.").waitFor();
    await page.keyboard.press("Escape");
    // A field that is being written in keeps its digits.
    await button(page, "Note").first().click();
    const note = page.getByLabel("Note on this session").or(page.locator("textarea")).first();
    await note.focus();
    await page.keyboard.press("Numpad1");
    await page.keyboard.press("PageDown");
    await note.evaluate((field) => (field as HTMLElement).blur());
    expect(await strip.getByText(/given/).count()).toBe(0);
    // The board in front has the keys; it does nothing with them, and they do not reach this window.
    const board = await app.another("/board");
    await board.bringToFront();
    await board.keyboard.press("Numpad1");
    await board.keyboard.press("PageDown");
    await page.bringToFront();
    await page.keyboard.press("Numpad1");
    await strip.getByText("Fern: 1 point given.").waitFor();
    const place = await button(page, "Class board").boundingBox();
    await button(page, "Take a point…").click();
    await page.getByText("1 given, 0 taken today").waitFor();
    // Refused twice, it is better left for today.
    await button(page, "take one point from Fern").click();
    await page.getByText("Two points are given for each one taken").first().waitFor();
    expect(await page.getByText("stop taking for today").count()).toBe(0);
    await button(page, "take one point from Robin").click();
    await page.getByText("stop taking for today").first().waitFor();
    await page.keyboard.press("Escape");
    // However long the refusal, nothing below the strip has moved.
    expect(await button(page, "Class board").boundingBox()).toEqual(place);
  });
});
