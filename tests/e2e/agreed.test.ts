import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { button, link, makeGroup } from "./support/steps.ts";

const app = oneApp();

/** From the group's page to one of a student, through the student's menu. */
async function openOf(page: Page, name: string, entry: string): Promise<void> {
  await button(page, `More for ${name}`).click();
  await page.getByRole("menuitem", { name: entry }).click();
}

const answers = (page: Page, line: string) => page.getByRole("radiogroup", { name: line });

async function say(page: Page, line: string, answer: string): Promise<void> {
  await answers(page, line).getByText(answer, { exact: true }).click();
  await answers(page, line).getByRole("radio", { name: answer, checked: true }).waitFor();
}

describe("What was agreed", () => {
  it("is noted answer by answer with who gave it, and printed to sign in the family's language", async () => {
    const page = await app.open();
    await makeGroup(page, "Table two", ["Fern", "Robin"]);
    await openOf(page, "Fern", "What was agreed");
    await page.getByLabel("Who answered").fill("Mother, by phone");
    await say(page, "May be observed", "Yes");
    await say(page, "Gets a home card", "No");
    await page
      .getByText(/· Mother, by phone/)
      .first()
      .waitFor();
    await say(page, "Gets a home card", "Yes");
    await page.getByText("Every answer so far (3)").click();
    await page.getByText(/Gets a home card, No, Mother, by phone/).waitFor();
    await button(page, /Language of Fern/).click();
    await page.getByRole("option", { name: "Español" }).click();
    // As after a reload: all of it is kept.
    await page.reload();
    await answers(page, "May be observed")
      .getByRole("radio", { name: "Yes", checked: true })
      .waitFor();
    await button(page, /Español.*Language|Language.*Español/).waitFor();
    await link(page, "Print this page").click();
    const sheet = page.locator(".sheet");
    await sheet.getByRole("heading", { name: "Lo que acordamos" }).waitFor();
    expect(await sheet.getByRole("img", { name: "Sí" }).count()).toBe(2);
    expect(await sheet.getByRole("img", { name: "No" }).count()).toBe(0);
    await sheet.getByText("Mother, by phone").first().waitFor();
    expect(await page.locator("[lang=es]").count()).toBe(1);
    // What is around the sheet stays in the app's own language.
    await button(page, "Print").first().waitFor();
  });

  it("only reminds at a start, without a name, and waits in Today's margin from its day on", async () => {
    const page = await app.open();
    await makeGroup(page, "Table two", ["Fern", "Robin"]);
    await button(page, "Start a session").click();
    await page.getByText("What was agreed is not noted yet for 2 students.").waitFor();
    await button(page, "Cancel").click();
    await openOf(page, "Robin", "What was agreed");
    await page.getByLabel("Look at this page again on").fill("2020-09-01");
    await link(page, "Today").click();
    await page.getByText(/Look again at what was agreed with Robin/).waitFor();
    await link(page, "What was agreed with Robin").click();
    await button(page, "No day").click();
    await link(page, "Today").click();
    await link(page, "Table two").first().waitFor();
    await page.getByText(/Look again at what was agreed/).waitFor({ state: "detached" });
  });
});

describe("A child who does not take part", () => {
  it("is on no roll, no tile, no card and no screen of the class, and can come back", async () => {
    const page = await app.open("--speed", "20");
    await makeGroup(page, "Table two", ["Fern", "Robin", "Ash"]);
    await openOf(page, "Robin", "What was agreed");
    await say(page, "Gets cues and records", "No");
    await page.getByText("Robin is not taking part").waitFor();
    await link(page, "Table two").first().click();
    await link(page, /^Cards to print/).click();
    await page.locator(".sheet").getByText("Fern", { exact: true }).first().waitFor();
    expect(await page.locator(".sheet").getByText("Robin").count()).toBe(0);
    await page.goBack();
    await button(page, "Start a session").click();
    await page.locator(".roll-names").waitFor();
    expect(await page.getByRole("dialog").getByText("Robin").count()).toBe(0);
    await button(page, "Start the session").click();
    await page.waitForURL(/\/session\//);
    // The group's page stands until the session's has come.
    await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
    expect(await page.getByText("Robin").count()).toBe(0);
    for (const view of ["/tiles", "/board"]) {
      const other = await app.another(view);
      await other
        .locator(view === "/tiles" ? ".tile" : ".board")
        .first()
        .waitFor();
      expect(await other.getByText("Robin").count()).toBe(0);
      if (view === "/tiles") expect(await other.locator(".tile-place").count()).toBe(2);
      await other.close();
    }
    await button(page, "Teacher’s view").click();
    await page.getByText("Names on this screen").click();
    await page.getByText("Fern").first().waitFor();
    expect(await page.getByText("Robin").count()).toBe(0);
    await button(page, "End").click();
    await button(page, "End it").click();
    await link(page, "Today").click();
    await link(page, "Table two").first().click();
    await openOf(page, "Robin", "What was agreed");
    await say(page, "Gets cues and records", "Yes");
    await link(page, "Table two").first().click();
    await button(page, "Start a session").click();
    await page.getByRole("dialog").getByText("Robin").first().waitFor();
  });
});
