import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { openDesktop } from "../../electron/host/desktop.ts";
import { systemClock } from "../../electron/services/base/clock.ts";
import { addStudents } from "../setup/add-students.ts";
import { oneApp } from "./support/one-app.ts";
import { button, link, makeGroup, openPlanMore } from "./support/steps.ts";

const app = oneApp();

/** PDF units are 1/72 inch: A4 is 210 x 297 mm (ISO 216), Letter 8.5 x 11 inches. */
const papers = { A4: [595.28, 841.89], Letter: [612, 792] } as const;
type Paper = keyof typeof papers;

// As long as fields allow, in words that break like real ones.
const long = (letters: number) => "Marisol writes on and on ".repeat(20).slice(0, letters).trim();
const name = long(40);

async function choosePaper(page: Page, paper: Paper): Promise<void> {
  const group = page.getByRole("radiogroup", {
    name: /^(Paper for printing|Papel para imprimir)$/,
  });
  await group.getByText(paper, { exact: true }).click();
  await group.getByRole("radio", { name: paper, checked: true }).waitFor();
}

/** That each sheet holds what is on it, and that the printer gets as many pages of that size. */
async function expectFits(page: Page, sheets: number): Promise<void> {
  await page.locator(".sheet").first().waitFor();
  await expectGray(page);
  for (const paper of ["A4", "Letter"] as const) {
    await choosePaper(page, paper);
    await page.evaluate(() => document.fonts.ready.then(() => undefined));
    // How much a sheet holds is measured once it stands there, on the paper that was chosen.
    await expect.poll(() => page.locator(".sheet").count()).toBe(sheets);
    const named = () =>
      page
        .locator(".sheet")
        .first()
        .evaluate((sheet) => getComputedStyle(sheet).getPropertyValue("page"));
    await expect.poll(named).toBe(paper.toLowerCase());
    const beyond = await page.locator(".sheet").evaluateAll((all) =>
      all.flatMap((sheet) => {
        const edge = sheet.getBoundingClientRect();
        return [...sheet.querySelectorAll("*")].flatMap((part) => {
          const box = part.getBoundingClientRect();
          const isOut = box.bottom > edge.bottom + 1 || box.right > edge.right + 1;
          const hides = part.scrollHeight > part.clientHeight + 2 && part.matches("article");
          return (isOut || hides) && box.height > 0 ? [`${part.tagName} ${part.className}`] : [];
        });
      }),
    );
    expect(beyond, paper).toEqual([]);
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    const sizes = [...pdf.matchAll(/\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/g)];
    expect(sizes).toHaveLength(sheets);
    for (const [, width, height] of sizes) {
      expect(Math.abs(Number(width) - papers[paper][0])).toBeLessThan(1);
      expect(Math.abs(Number(height) - papers[paper][1])).toBeLessThan(1);
    }
  }
}

async function openOf(page: Page, entry: string): Promise<void> {
  await link(page, "Table two").first().click();
  await button(page, `More for ${name}`).click();
  await page.getByRole("menuitem", { name: entry }).click();
}

async function speakSpanish(page: Page): Promise<void> {
  await openOf(page, "What was agreed");
  await button(page, /Language of/).click();
  await page.getByRole("option", { name: "Español" }).click();
  await button(page, /Español/).waitFor();
}

/** Every color on the sheets is one of gray: nothing is said by a color that a copier loses. */
async function expectGray(page: Page): Promise<void> {
  const colored = await page.locator(".sheet").evaluateAll((all) =>
    all.flatMap((sheet) =>
      [...sheet.querySelectorAll("*")].flatMap((part) => {
        const { color, backgroundColor, borderBottomColor } = getComputedStyle(part);
        return [color, backgroundColor, borderBottomColor].filter((each) => {
          const [red = 0, green = 0, blue = 0] = (each.match(/[\d.]+/g) ?? []).map(Number);
          const isSeen = !/, 0\)$|\/ 0\)$/.test(each);
          return isSeen && Math.max(red, green, blue) - Math.min(red, green, blue) > 12;
        });
      }),
    ),
  );
  expect(colored).toEqual([]);
}

const caller = { clientId: "papers", signal: new AbortController().signal };

/** Thirty students with names as long as a field allows, dealt into teams of five, and their first lesson in pairs. */
async function aClassOfThirty(language: "en" | "es"): Promise<string> {
  const clock = systemClock(1);
  const options = { folder: app.folder(), clock, host: "loopback", version: "1" } as const;
  const desktop = await openDesktop(options);
  const { groups, teams, pairs, settings } = {
    ...desktop.handlers,
    settings: desktop.handlers.app,
  };
  await settings.saveSettings({ language }, caller);
  const { id: groupId } = await groups.create({ name: "Table two", target: "" }, caller);
  const names = Array.from({ length: 30 }, (_, at) => `${at + 1} ${long(37)}`);
  const ids = (await addStudents(desktop.handlers, groupId, names, caller)).map(({ id }) => id);
  const term = { size: 5, rounds: 1, weekday: 1, goal: 0.7, points: 2, isShown: false };
  await teams.saveSettings({ groupId, settings: term }, caller);
  await teams.saveNames({ groupId, names: [long(30)] }, caller);
  const dealt = Array.from({ length: 6 }, (_, at) => ids.slice(5 * at, 5 * at + 5));
  await teams.deal({ groupId, deals: 0, rounds: [dealt] }, caller);
  await pairs.begin({ groupId, absentIds: ids.slice(0, 1), points: 2 }, caller);
  await desktop.close();
  return groupId;
}

describe("Papers for home fit A4 and Letter, in black and white and in both languages", () => {
  it("what was agreed, and contracts in either wording", async () => {
    const page = await app.open();
    await makeGroup(page, "Table two", [name, "Robin"]);
    // With points the papers have the most to say.
    await page.locator("a[href*='/plans/']").first().click();
    await openPlanMore(page);
    await page.getByText("The usual", { exact: true }).click();
    await page.getByText("Points can be taken back").click();
    await page.locator(".plan-foot").getByRole("button", { name: "Save" }).click();
    await page.getByText("Everything on this page is saved.").waitFor();
    await link(page, "Today").click();
    await openOf(page, "What was agreed");
    await page.getByLabel("Who answered").fill(long(60));
    const lines = page.getByRole("radiogroup");
    await lines.first().waitFor();
    for (const each of await lines.all()) await each.getByText("Yes", { exact: true }).click();
    await page.getByText(/^Every answer so far \(5\)/).waitFor();
    await link(page, "Print this page").click();
    await expectFits(page, 1);
    await page.goBack();
    await speakSpanish(page);
    await link(page, "Print this page").click();
    await page.getByText("Lo que acordamos").first().waitFor();
    await expectFits(page, 1);
    await page.goBack();
    await button(page, /Language of/).click();
    await page.getByRole("option", { name: "Same as the app" }).click();
    await button(page, /Same as the app/).waitFor();
    for (const wording of ["A young child", "An older student"]) {
      await openOf(page, "Contract");
      const next = button(page, /^Write (a contract|the next one)$/);
      await next.or(page.getByLabel("Goal, out of 100")).first().waitFor();
      if (await next.isVisible()) await next.click();
      await page.getByText(wording, { exact: true }).click();
      await page.getByLabel("Goal, out of 100").fill("73");
      await page.getByLabel("Of these correct, out of 100").fill("67");
      await page.getByLabel("What else it earns").fill(long(120));
      await page.getByLabel("Who checks it").fill(long(60));
      await button(page, "Write it down").click();
      await button(page, "Both have signed").click();
      await link(page, "Print to sign").click();
      await expectFits(page, 1);
      await page.goBack();
      await speakSpanish(page);
      await openOf(page, "Contract");
      await link(page, "Print to sign").click();
      await page.getByRole("heading", { name: "Nuestro contrato" }).waitFor();
      await expectFits(page, 1);
      await page.goBack();
      await button(page, "End it today").click();
    }
  });

  it("home cards with the most lessons and goals, and a full week", async () => {
    const page = await app.open();
    await makeGroup(page, "Table two", [name, "Robin"]);
    await link(page, "Today").click();
    for (const one of [name, "Robin"]) {
      await link(page, "Table two").first().click();
      await button(page, `More for ${one}`).click();
      await page.getByRole("menuitem", { name: "Home card" }).click();
      const goals = [1, 2, 3, 4].map((n) => `${n} ${long(50)}`);
      const lessons = [1, 2, 3, 4, 5, 6, 7, 8].map((n) => `${n} ${long(14)}`);
      await page.getByLabel("Goals, one on each line").fill(goals.join("\n"));
      await page.getByLabel("Lessons, one on each line").fill(lessons.join("\n"));
      await page.getByText("Tell the family how often").click();
      await page.getByLabel("From this day on").fill("2026-02-23");
      await button(page, "Save this card").click();
      await page.getByText(/^Saved: from .* 32 ratings a day/).waitFor();
    }
    await speakSpanish(page);
    await link(page, "Table two").first().click();
    await link(page, "Home cards").click();
    await link(page, "Print all for this day").click();
    await expectFits(page, 1);
    await link(page, "Home cards").click();
    for (let day = 2; day <= 6; day += 1) {
      await page.getByLabel("Day", { exact: true }).fill(`2026-03-0${day}`);
      const region = page.getByRole("region", { name });
      await region.getByRole("gridcell").first().click();
      await page.keyboard.type("5".repeat(32));
      await region.getByLabel("What went well").fill(long(300));
      await region.getByLabel("What to do tomorrow").fill(long(300));
      await page.getByText("All saved.").waitFor();
    }
    await page.goto(
      `${new URL(page.url()).origin}${new URL(page.url()).pathname.replace("/groups/", "/print/home-week/").replace("/home-cards", "")}?from=2026-03-02`,
    );
    await expectFits(page, 2);
  });

  it.each(["en", "es"] as const)(
    "the teams on the wall and the lesson sheet of thirty: %s",
    async (language) => {
      const groupId = await aClassOfThirty(language);
      const page = await app.open();
      const { origin } = new URL(page.url());
      await page.goto(`${origin}/print/teams/${groupId}`);
      await page.getByText(language === "en" ? "Team 6" : "Equipo 6").waitFor();
      await expectFits(page, 2);
      await page.goto(`${origin}/print/pairs/${groupId}`);
      await page
        .getByText(language === "en" ? "Teaches first" : "Enseña primero")
        .first()
        .waitFor();
      await expectFits(page, 1);
      expect(await page.locator(".pairs-table tbody tr").count()).toBe(14);
    },
  );
});
