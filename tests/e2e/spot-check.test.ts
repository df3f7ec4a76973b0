import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { answerOnTile, button, link, makeGroup } from "./support/steps.ts";

const app = oneApp();

const asked = (page: Page, name: string) => page.getByRole("group", { name: `${name}, just now?` });

/** A practice of a class of two, in which every cue asks about both. */
async function practise(): Promise<Page> {
  const page = await app.open("--speed", "4");
  await makeGroup(page, "Table two", ["Fern", "Robin"]);
  await link(page, "Today").click();
  await link(page, "Practise with the class: Table two").click();
  await button(page, "Start the practice").click();
  await button(page, "Start the session").click();
  return page;
}

describe("A spot check", () => {
  it("keeps each student's keys through the check, answers once a press, and is skipped by Escape", async () => {
    const page = await practise();
    await button(page, "Look now").waitFor({ timeout: 60_000 });
    await answerOnTile(page, "Fern", "yes");
    await answerOnTile(page, "Robin", "yes");
    await button(page, "Look now").click();
    await asked(page, "Robin").waitFor();

    // Held down: the first student is answered, the second is not.
    await page.keyboard.down("1");
    await asked(page, "Fern").waitFor({ state: "hidden" });
    for (let repeat = 0; repeat < 5; repeat += 1) await page.keyboard.down("1");
    await page.keyboard.up("1");
    await asked(page, "Robin").waitFor();
    // Robin's own key, as it was before Fern was answered.
    await page.keyboard.press("3");
    await asked(page, "Robin").waitFor({ state: "hidden" });

    await button(page, "Look now").waitFor({ timeout: 60_000 });
    await button(page, "Look now").click();
    await asked(page, "Fern").waitFor();
    await page.keyboard.press("w");
    await asked(page, "Robin").waitFor({ state: "hidden" });
    await page.keyboard.press("Escape");
    await asked(page, "Fern").waitFor({ state: "hidden" });
    expect(await button(page, "Look now").count()).toBe(0);

    await button(page, "End").click();
    await button(page, "End it").click();
    await button(page, "Show the results").click();
    // Two looks at the first cue, both as recorded; nothing was compared at the second.
    await page.getByText("You and the students said the same at 2 of 2 looks: 100%.").waitFor();
  });

  it("of one's own choice shows no name before a second press, and says when it is not compared", async () => {
    const page = await practise();
    await button(page, "Check someone").click();
    await page.getByText("The class can see this screen").waitFor();
    expect(await button(page, /^Fern$/).count()).toBe(0);
    // No cue has come yet.
    await page.getByText("kept as a note of what you saw, not compared").waitFor();
    await button(page, "Show the names").click();
    await button(page, /^Fern$/).click();
    await asked(page, "Fern").getByText("working").click();
    await asked(page, "Fern").waitFor({ state: "hidden" });
    await button(page, "Teacher’s view").click();
    await page.getByText("Names on this screen").click();
    await button(page, "Check someone").click();
    await button(page, /^Robin$/).waitFor();
  });
});
