import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { paced } from "./support/pace.ts";
import { answerOnTile, asked, button, link, lookNow, makeGroup } from "./support/steps.ts";

const app = oneApp();

/** The first start with sound offers to hear the chime first. */
async function startPractice(page: Page) {
  await button(page, "Start the practice").click();
  await button(page, "Start the session").click();
}

describe("A practice with the class", () => {
  it("shows the teacher's examples, asks for looks only on a press, gives a match score and counts nothing", async () => {
    const page = await app.open(...paced(4));
    await makeGroup(page, "Table two", ["Fern", "Robin"]);
    await link(page, "Today").click();
    await link(page, "Practice with the class: Table two").click();
    await page.getByText("Marks are not kept in the record").waitFor();
    // Nothing runs yet, and nothing else is said.
    expect(await page.getByText("A session is already running").count()).toBe(0);
    await page.getByLabel("This is working").fill("Eyes on my page");
    await page.getByLabel("This is not working").fill("Eyes on the window");
    await startPractice(page);
    await page
      .getByText(/^Eyes on (my page|the window)$/)
      .first()
      .waitFor();

    // Students stand at this screen: no name of a check may be read before the teacher's press.
    const look = button(page, "Look now");
    await look.waitFor({ timeout: 60_000 });
    expect(await page.getByText("Fern, just now?").count()).toBe(0);
    await answerOnTile(page, "Fern", "yes");
    await answerOnTile(page, "Robin", "yes");
    // A key that comes with the question was meant for something else, and is not taken.
    await lookNow(page, "Fern");
    await page.keyboard.press("1");
    await asked(page, "Fern").waitFor({ state: "hidden" });
    await asked(page, "Robin").getByText("not").click();
    await asked(page, "Robin").waitFor({ state: "hidden" });

    await button(page, "End").click();
    await button(page, "End it").click();
    await button(page, "Show the results").click();
    await page.getByText("You and the students said the same at 1 of 2 checks.").waitFor();
    await page.getByText("Nothing marked in a practice is counted").waitFor();

    await page.getByRole("link", { name: "Progress", exact: true }).click();
    await expect.poll(() => page.getByText("100%").count()).toBe(0);
    await page.getByRole("link", { name: "Today", exact: true }).click();
    await page.getByRole("row", { name: /Table two · practice/ }).waitFor();

    await link(page, "Practice with the class: Table two").click();
    await expect
      .poll(() => page.getByLabel("This is working").inputValue())
      .toBe("Eyes on my page");
  });

  it("keeps the teacher's strip private with the tiles in a window of their own", async () => {
    const page = await app.open(...paced(4));
    await makeGroup(page, "Table one", ["Fern", "Robin"]);
    await link(page, "Today").click();
    await link(page, "Practice with the class: Table one").click();
    await startPractice(page);
    const opening = page.waitForEvent("popup");
    await page.getByRole("button", { name: "Class screen", exact: true }).click();
    await button(page, "In a separate window").click();
    const tiles = await opening;
    // The teacher's window has turned to the teacher's view; names come when they are chosen.
    await page.getByRole("region", { name: "Teacher’s view" }).waitFor();
    await page.getByText("Names on this screen").click();
    await page.getByText("Fern, just now?").waitFor({ timeout: 60_000 });
    await tiles.getByRole("heading", { name: "Students’ tiles" }).waitFor();
    // The students' own question, and no other.
    await expect.poll(() => tiles.getByText("just now?").count()).toBe(1);
    expect(await tiles.getByRole("region", { name: "Teacher’s strip" }).count()).toBe(0);
    await answerOnTile(tiles, "Fern", "no");
  });
});
