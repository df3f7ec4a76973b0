import type { Locator, Page } from "playwright";
import { describe, expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { paced } from "./support/pace.ts";
import { silentClass } from "./support/silent-class.ts";
import {
  appearsMs,
  askedAny,
  button,
  link,
  lookNow,
  makeGroup,
  showTiles,
} from "./support/steps.ts";

// WCAG 2.2, success criterion 2.4.3: what has the focus after a press is where the next key is meant for.
// A page's body is nowhere: a screen reader starts again at its top.

const app = oneApp();

/** What has the focus, in words for a failed test. */
const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const { activeElement } = document;
    if (activeElement === null || activeElement === document.body) return "nothing";
    const { tagName, className, textContent } = activeElement;
    return `${tagName} ${className} ${textContent?.slice(0, 60)}`;
  });

/** Presses by key, waits for what comes of it, and looks where the focus is then and a moment later. */
async function press(page: Page, control: Locator, until: Locator): Promise<string> {
  await control.waitFor();
  await page.waitForTimeout(appearsMs);
  await control.focus();
  await page.keyboard.press("Enter");
  await until.first().waitFor();
  await expect.poll(() => focused(page), { timeout: 3_000 }).not.toBe("nothing");
  // Longer than the frames in which a page may still move it.
  await page.waitForTimeout(150);
  const after = await focused(page);
  expect(after).not.toBe("nothing");
  return after;
}

async function chooseInMenu(page: Page, student: string, entry: string, until: Locator) {
  await button(page, `More for ${student}`).focus();
  await page.keyboard.press("Enter");
  const item = page.getByRole("menuitem", { name: entry });
  await item.waitFor();
  return press(page, item, until);
}

const inDialog = (page: Page, name: string | RegExp) =>
  page.getByRole("dialog").or(page.getByRole("alertdialog")).getByRole("button", { name });

describe("After a press that changes the page the focus is near, never at its top:", () => {
  it("a group and its students", async () => {
    const page = await app.open();
    await makeGroup(page, "Table two", ["Ash", "Birch", "Cedar", "Dill"]);
    const students = page.locator(".groups-students > li");
    await press(page, button(page, "Undo"), page.getByText("Undone: nobody was added."));
    await page.getByLabel("Add students").fill("Ash\nBirch\nCedar");
    await press(page, button(page, "Add 3 students"), students.nth(2));

    const archived = (name: string) => page.getByText(`${name} is archived`);
    await chooseInMenu(page, "Birch", "Archive", archived("Birch"));
    await press(page, button(page, "Undo").first(), students.nth(2));
    const next = await chooseInMenu(page, "Ash", "Archive", archived("Ash"));
    // The student who has come to stand in that place.
    expect(next).toContain("Birch");
    await page.getByText("1 archived student").click();
    await press(page, button(page, "Bring back Ash"), students.nth(2));
    await chooseInMenu(page, "Cedar", "Archive", archived("Cedar"));
    await page.getByText("1 archived student").click();
    await press(page, button(page, "Erase Cedar for good"), page.getByRole("alertdialog"));
    await press(page, inDialog(page, /^Erase/), inDialog(page, "Close"));
    await press(page, inDialog(page, "Close"), students.nth(1));
    await chooseInMenu(page, "Ash", "Change", page.getByRole("dialog"));
    await press(page, inDialog(page, "Save"), students.nth(1));
    await press(page, button(page, "Make another plan"), page.getByRole("heading", { level: 1 }));
  });

  it("a session, from its start to its results", async () => {
    silentClass(app.folder(), ["Ash", "Birch", "Cedar"], {
      plan: { checkPace: "every", studentsPerCheck: 1 },
    });
    const page = await app.open(...paced(4));
    const strip = page.getByRole("region", { name: "Teacher’s strip" });
    await press(page, button(page, "Start a session with Room 12"), page.getByRole("dialog"));
    await press(page, button(page, "Start the session"), strip);
    await press(page, button(page, "Absent: Student 3"), button(page, "Here: Student 3"));
    await press(page, button(page, "Here: Student 3"), button(page, "Absent: Student 3"));
    await press(
      page,
      button(page, "Class board"),
      page.getByRole("region", { name: "Class board" }),
    );
    await showTiles(page);
    const answer = button(page, "Ash: yes, I was working");
    await page.locator(".tile-asked").first().waitFor({ timeout: 60_000 });
    await page.waitForTimeout(700);
    await press(page, answer, page.locator(".tile-recorded[aria-label=Ash]"));
    await page.waitForTimeout(700);
    await press(page, button(page, "Ash: undo"), page.locator(".tile-asked[aria-label=Ash]"));
    await page.waitForTimeout(700);
    await press(page, button(page, "Birch: I was away"), page.locator(".tile-away"));

    await button(page, "Look now").waitFor({ timeout: 60_000 });
    await lookNow(page);
    const check = askedAny(page);
    await press(
      page,
      check.getByRole("button", { name: /^working/ }),
      page.getByText("Noted").first(),
    );
    await press(page, button(page, "Pause"), strip.getByText("Paused", { exact: true }));
    await press(page, button(page, "Resume"), strip.getByText("Running", { exact: true }));
    await press(page, button(page, "End"), page.getByRole("alertdialog"));
    const over = await press(page, button(page, "End it"), button(page, "Show the results"));
    expect(over).toContain("The session is over");
    await press(page, button(page, "Show the results"), page.getByRole("table").first());
    await press(page, button(page, "Don’t count this session"), page.getByRole("dialog"));
    await press(page, button(page, "Leave it out"), button(page, /Count it again|Count this/));
    await press(
      page,
      button(page, /Count it again|Count this/),
      button(page, "Don’t count this session"),
    );
    const cards = await press(page, link(page, "See or correct the marks"), page.getByRole("grid"));
    // The cursor stands where typing starts.
    expect(cards).toContain("cards-box");
    await page.getByLabel(/^Cedar, box 1:/).focus();
    await press(page, button(page, "Absent: Cedar"), button(page, "Here: Cedar"));
    await press(page, button(page, "Here: Cedar"), button(page, "Absent: Cedar"));
  }, 180_000);

  it("progress, a report and the settings, with the sample class", async () => {
    const page = await app.open("--sample");
    await link(page, "Progress").first().click();
    await press(
      page,
      link(page, /Sample class/).first(),
      page.getByRole("heading", { name: /Sample class/ }),
    );
    const student = page.getByRole("table").getByRole("link").first();
    expect(await press(page, student, page.locator("figure").first())).toMatch(/^H1/);
    await press(page, link(page, /[Rr]eport/).first(), page.locator(".print"));
    await page.goBack();
    await link(page, "Progress").first().click();
    await link(page, /Sample class/)
      .first()
      .click();
    await press(page, button(page, "Add a phase"), page.getByLabel("Name on the graph"));
    await page.keyboard.press("Escape");
    await link(page, "Settings").click();
    await page.getByLabel("Code, 4 to 8 digits").fill("4711");
    await press(page, button(page, "Set the code"), page.getByText("A code is set."));
    await press(page, button(page, "Remove the code"), page.getByText("No code is set."));
    await press(
      page,
      button(page, "Remove the sample class"),
      button(page, /[Ss]how the sample class|Add the sample/),
    );
  });
});
