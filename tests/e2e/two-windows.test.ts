import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { paced } from "./support/pace.ts";
import { button, link, makeGroup, openPlanMore } from "./support/steps.ts";

// Two adults in one room, each with a window of their own: nothing of either is lost, and what cannot be is said.

const app = oneApp();
/** Opens what one page shows in a second window. */
async function second(page: Page): Promise<Page> {
  const { pathname, search } = new URL(page.url());
  return app.another(pathname + search);
}

const box = (page: Page, name: string, place: string) =>
  page.getByRole("region", { name, exact: true }).locator(`[data-place='${place}']`);

/** A group with a home card for one of them, at the page where cards are typed in. */
async function typingCards(page: Page): Promise<void> {
  await makeGroup(page, "Table two", ["Fern", "Robin"]);
  for (const name of ["Fern", "Robin"]) {
    await button(page, `More for ${name}`).click();
    await page.getByRole("menuitem", { name: "Home card" }).click();
    await button(page, "Save this card").click();
    await page.getByText(/^Saved: from/).waitFor();
    await link(page, "Table two").first().click();
  }
  await link(page, "Home cards").click();
  await box(page, "Fern", "0/1").waitFor();
}

describe("Two windows on one home card", () => {
  it("each keep what the other typed, box by box and line by line", async () => {
    const page = await app.open();
    await typingCards(page);
    const other = await second(page);
    await box(other, "Fern", "0/1").waitFor();
    // The second window has begun before the first one saves.
    await box(other, "Fern", "1/1").click();
    await other.keyboard.press("2");
    await page.bringToFront();
    await box(page, "Fern", "0/1").click();
    await page.keyboard.press("5");
    await page.getByLabel("What went well").first().fill("Began at once");
    await page.getByText("All saved.").waitFor();
    await other.getByText("All saved.").waitFor();
    for (const each of [page, other]) {
      await expect.poll(() => box(each, "Fern", "0/1").textContent()).toBe("5");
      await expect.poll(() => box(each, "Fern", "1/1").textContent()).toBe("2");
      await expect
        .poll(() => each.getByLabel("What went well").first().inputValue())
        .toBe("Began at once");
    }
    await page.reload();
    await expect.poll(() => box(page, "Fern", "0/1").textContent()).toBe("5");
    await expect.poll(() => box(page, "Fern", "1/1").textContent()).toBe("2");
  });

  it("lose no other card when a student is erased while her card is typed in", async () => {
    const page = await app.open();
    await typingCards(page);
    const other = await second(page);
    await box(other, "Fern", "0/1").waitFor();
    await link(page, "Table two").first().click();
    await box(other, "Fern", "0/1").click();
    await other.keyboard.press("4");
    await button(page, "More for Fern").click();
    await page.getByRole("menuitem", { name: "Archive" }).click();
    await page.getByText("1 archived student").click();
    await button(page, "Erase Fern for good").click();
    await button(page, "Erase the record").click();
    await page.getByText(/^Removed: /).waitFor();
    await expect.poll(() => box(other, "Fern", "0/1").count()).toBe(0);
    await box(other, "Robin", "0/1").click();
    await other.keyboard.press("3");
    await other.getByText("All saved.").waitFor();
    await other.reload();
    await expect.poll(() => box(other, "Robin", "0/1").textContent()).toBe("3");
  });
});

/** A class whose plan earns and may take, in a session at the teacher's view. */
async function earningSession(page: Page, students: readonly string[], onPaper = true) {
  await makeGroup(page, "Table two", students);
  await page.locator("a[href*='/plans/']").first().click();
  if (onPaper) await page.getByText("on paper", { exact: true }).click();
  await openPlanMore(page);
  await page.getByText("The usual", { exact: true }).click();
  await page.getByText("Points can be taken back").click();
  await page.locator(".plan-foot").getByRole("button", { name: "Save" }).click();
  await page.getByText("Everything on this page is saved.").waitFor();
  await link(page, "Table two").first().click();
  await button(page, "Start a session").click();
  await button(page, "Start the session").click();
  await privately(page);
}

async function privately(page: Page): Promise<void> {
  await button(page, "Teacher’s view").click();
  await page.getByText("Names on this screen").click();
}

const strip = (page: Page) => page.getByRole("group", { name: "Points", exact: true });

describe("Two windows on one session", () => {
  it("offer to reverse the newest take when what was given falls below two for one", async () => {
    const page = await app.open(...paced(4));
    await earningSession(page, ["Fern", "Robin", "Ash"]);
    await button(page, "Give points").click();
    await page.getByRole("button", { name: "+2, give Fern 2 points", exact: true }).click();
    await page.keyboard.press("Escape");
    await strip(page).getByText("Fern: 2 points given.").waitFor();
    // It opens with names, as the window it was opened from.
    const other = await second(page);
    await button(other, "Teacher’s view").click();
    await button(other, "Take a point…").click();
    await button(other, "take one point from Fern").click();
    await other.keyboard.press("Escape");
    await strip(other).getByText("Fern: 1 point taken.").waitFor();
    // The first window takes its giving back: the take stands alone now, and is never refused for that.
    await page.bringToFront();
    await strip(page).getByRole("button", { name: "Undo" }).click();
    const reverse = strip(page).getByRole("button", { name: "Undo the last point taken: Fern" });
    await strip(page)
      .getByText("More than half of what Fern was given has now been taken.")
      .waitFor();
    await reverse.waitFor();
    await page.waitForTimeout(700);
    await reverse.click();
    await strip(page).getByText("More than half of what Fern").waitFor({ state: "detached" });
    await button(page, "Take a point…").click();
    await page.getByText("0 given, 0 taken today").first().waitFor();
    await strip(other).getByText("More than half of what Fern").waitFor({ state: "detached" });
  });

  it("leave the class screen's keys alone: whoever presses there gives and takes nothing", async () => {
    const page = await app.open(...paced(4));
    await earningSession(page, ["Fern", "Robin", "Ash"], false);
    await button(page, "Give points").click();
    await button(page, "Give a key to Fern").click();
    await page.getByText("On the class screen they do nothing").waitFor();
    await page.keyboard.press("Escape");
    await button(page, "Class screen").click();
    const [classPage] = await Promise.all([
      app.context().waitForEvent("page"),
      button(page, "In a separate window").click(),
    ]);
    await classPage.locator(".tile").first().waitFor();
    await classPage.bringToFront();
    for (const key of ["Numpad1", "PageDown", "NumpadSubtract", "Numpad1", "PageUp"]) {
      await classPage.keyboard.press(key);
    }
    await page.bringToFront();
    // The first point that is given is the adult's own.
    await page.keyboard.press("Numpad1");
    await strip(page).getByText("Fern: 1 point given.").waitFor();
    await button(page, "Take a point…").click();
    await page.getByText("1 given, 0 taken today").waitFor();
  });
});

describe("A reload in the middle of writing", () => {
  it("leaves a contract and a home card as they were being written, until they are saved or begun again", async () => {
    const page = await app.open();
    await makeGroup(page, "Table two", ["Fern", "Robin"]);
    const open = async (name: string, entry: string) => {
      await button(page, `More for ${name}`).click();
      await page.getByRole("menuitem", { name: entry }).click();
    };
    const isHere = page.getByText("What you were writing is still here.");
    await open("Fern", "Contract");
    await page.getByLabel("Who checks it").fill("Ms Reed");
    expect(await isHere.count()).toBe(0);
    await page.reload();
    await isHere.waitFor();
    expect(await page.getByLabel("Who checks it").inputValue()).toBe("Ms Reed");
    // Of another student nothing of it is shown, and saved it is not kept twice.
    await link(page, "Table two").first().click();
    await open("Robin", "Contract");
    await page.getByLabel("Who checks it").waitFor();
    expect(await page.getByLabel("Who checks it").inputValue()).toBe("");
    await link(page, "Table two").first().click();
    await open("Fern", "Contract");
    await page.getByLabel("What else it earns").fill("I choose the game");
    await button(page, "Write it down").click();
    await page.getByText(/^Not signed yet/).waitFor();
    await page.reload();
    await page.getByText(/^Not signed yet/).waitFor();
    expect(await isHere.count()).toBe(0);

    await link(page, "Table two").first().click();
    await open("Fern", "Home card");
    await page.getByLabel("Goals, one on each line").fill("I put my hand up");
    await page.reload();
    await isHere.waitFor();
    const goals = page.getByLabel("Goals, one on each line");
    expect(await goals.inputValue()).toBe("I put my hand up");
    await button(page, "Begin again").click();
    await expect.poll(() => goals.inputValue()).not.toBe("I put my hand up");
    await page.reload();
    await goals.waitFor();
    expect(await isHere.count()).toBe(0);
    expect(
      await page.evaluate(() => Object.keys(sessionStorage).filter((key) => /writing/.test(key))),
    ).toEqual([]);
  });
});

const saved = (page: Page) => page.getByText("Saved in another window");

describe("Two windows on one setup", () => {
  it("write to one family, and the words of neither are written over unasked", async () => {
    const page = await app.open("--sample");
    await link(page, "Sample class (invented)").first().click();
    await page.waitForURL(/\/groups\/[^/]+$/);
    const groupId = /groups\/([^/?]+)/.exec(page.url())?.[1];
    await page.goto(`${new URL(page.url()).origin}/print/family/${groupId}`);
    const words = (on: Page) =>
      on.getByRole("region", { name: "About the page for Otter’s family" }).getByRole("textbox");
    await words(page).waitFor();
    const other = await second(page);
    await words(other).waitFor();
    await words(page).fill("Begins at once now.");
    await expect.poll(() => words(other).inputValue()).toBe("Begins at once now.");
    // The second window writes while the first one saves; so it has not seen what is kept.
    await Promise.all([words(page).fill("Page one."), words(other).fill("Page two.")]);
    await expect
      .poll(async () => (await saved(page).count()) + (await saved(other).count()))
      .toBe(1);
    for (const each of [page, other]) {
      if ((await saved(each).count()) > 0) await button(each, "Show what is kept").click();
    }
    await expect
      .poll(async () => (await words(page).inputValue()) === (await words(other).inputValue()))
      .toBe(true);
  });

  it("say so where the other saved meanwhile, keep what was typed, and overwrite nothing unasked", async () => {
    const page = await app.open();
    await makeGroup(page, "Table two", ["Fern", "Robin", "Ash", "Elm", "Fir", "Hazel"]);
    await link(page, "Teams").click();
    await page.getByLabel("Students per team").fill("3");
    await page.keyboard.press("Tab");
    await button(page, "Save and go on").click();
    await button(page, /^Deal \d+ rounds$/).waitFor();
    const other = await second(page);
    for (const each of [page, other]) {
      await each.getByText("Names of the teams").click();
      await each.getByLabel("Team 1").waitFor();
    }
    const save = (on: Page) =>
      on
        .locator("form")
        .filter({ has: on.getByLabel("Team 1") })
        .getByRole("button", { name: "Save" });
    // Untouched, a form follows what another window saves.
    await page.getByLabel("Team 1").fill("Kites");
    await save(page).click();
    await expect.poll(() => other.getByLabel("Team 1").inputValue()).toBe("Kites");
    await other.getByLabel("Team 1").fill("Owls");
    await page.getByLabel("Team 2").fill("Otters");
    await save(page).click();
    await saved(other).waitFor();
    expect(await other.getByLabel("Team 1").inputValue()).toBe("Owls");
    await save(other).click();
    await expect.poll(() => page.getByLabel("Team 1").inputValue()).toBe("Kites");
    await button(other, "Show what is kept").click();
    await expect.poll(() => other.getByLabel("Team 2").inputValue()).toBe("Otters");
    await other.getByLabel("Team 1").fill("Owls");
    await page.getByLabel("Team 2").fill("Newts");
    await save(page).click();
    await button(other, "Go on with mine").click();
    await save(other).click();
    await expect.poll(() => page.getByLabel("Team 1").inputValue()).toBe("Owls");
    expect(await saved(page).count()).toBe(0);
    // The term likewise.
    for (const each of [page, other]) await each.getByText("The term", { exact: true }).click();
    await other.getByLabel("Rounds in the term").fill("6");
    await other.keyboard.press("Tab");
    await page.getByLabel("Rounds in the term").fill("5");
    await page.keyboard.press("Tab");
    await page
      .locator("form")
      .filter({ hasText: "Rounds in the term" })
      .getByRole("button", { name: "Save" })
      .click();
    await saved(other).waitFor();
    expect(await other.getByLabel("Rounds in the term").inputValue()).toBe("6");
    await button(other, "Show what is kept").click();
    await expect.poll(() => other.getByLabel("Rounds in the term").inputValue()).toBe("5");
  });

  it("make a newer home card once, and the second is told", async () => {
    const page = await app.open();
    await makeGroup(page, "Table two", ["Fern", "Robin"]);
    await button(page, "More for Fern").click();
    await page.getByRole("menuitem", { name: "Home card" }).click();
    const goals = (on: Page) => on.getByLabel("Goals, one on each line");
    await goals(page).waitFor();
    const other = await second(page);
    await goals(other).fill("Tidy up");
    await goals(page).fill("Begin at once");
    await button(page, "Save this card").click();
    await page.getByText(/^Saved: from/).waitFor();
    await saved(other).waitFor();
    expect(await saved(page).count()).toBe(0);
    await button(other, "Save this card").click();
    await button(other, "Show what is kept").click();
    expect(await goals(other).inputValue()).toBe("Begin at once");
    await goals(other).fill("Ask for help");
    await button(other, "Save this card").click();
    // Untouched or not, the first one hears of it too.
    await saved(page).waitFor();
    await button(page, "Show what is kept").click();
    expect(await goals(page).inputValue()).toBe("Ask for help");
  });
});
