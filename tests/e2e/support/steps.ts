import type { Page } from "playwright";

export const button = (page: Page, name: string | RegExp) => page.getByRole("button", { name });
export const link = (page: Page, name: string | RegExp) => page.getByRole("link", { name });

/** From an empty notebook to a group with students. */
export async function makeGroup(page: Page, name: string, students: readonly string[]) {
  await page.getByLabel("Group name").fill(name);
  await button(page, "Make this group").click();
  await page.getByRole("heading", { name, exact: true }).waitFor();
  await page.getByLabel("Add students").fill(students.join("\n"));
  await button(page, `Add ${students.length} students`).click();
  await page
    .getByText(students.at(-1) ?? "", { exact: true })
    .first()
    .waitFor();
}

/** Opens all of a plan that is not among its three questions. */
export async function openPlanMore(page: Page): Promise<void> {
  const more = page.getByText(/^More: sound, spot checks/);
  await more.waitFor();
  const isOpen = await more.evaluate((each) => each.parentElement?.hasAttribute("open"));
  if (!isOpen) await more.click();
}

/** Has a session's own page show the students' tiles, which it does on the adult's wish alone. */
export async function showTiles(page: Page) {
  await button(page, "Students’ tiles").click();
  await page.locator(".tile").first().waitFor();
}

/** After a cue a tile takes nothing for 600 ms; here a little longer, for a slow machine. */
const tileRestsMs = 680;

/** One student's answer on the tiles, once it is asked for; again where the next cue came between. */
export async function answerOnTile(page: Page, name: string, value: "yes" | "no") {
  const said = value === "yes" ? "yes, I was working" : "no, I was not working";
  const recorded = page.locator(`.tile-recorded[aria-label="${name}"]`);
  for (let tries = 0; tries < 10; tries += 1) {
    await page.locator(`.tile-asked[aria-label="${name}"]`).waitFor({ timeout: 60_000 });
    await page.waitForTimeout(tileRestsMs);
    await button(page, `${name}: ${said}`).click();
    const isRecorded = recorded.waitFor({ timeout: 1_000 }).then(
      () => true,
      () => false,
    );
    if (await isRecorded) return;
  }
  throw new Error(`The tile of ${name} took no answer.`);
}

/** What has just appeared takes nothing for 300 ms; here a little longer, for a slow machine. */
export const appearsMs = 400;

export const asked = (page: Page, name: string) =>
  page.getByRole("group", { name: `${name}, just now?` });
/** The same of whoever is asked about. */
export const askedAny = (page: Page) => page.getByRole("group", { name: /, just now\?$/ }).first();

/** Shows who is asked about, and waits until that takes presses; again where the next check came between. */
export async function lookNow(page: Page, name?: string) {
  for (let tries = 0; tries < 10; tries += 1) {
    await button(page, "Look now").waitFor({ timeout: 60_000 });
    await page.waitForTimeout(appearsMs);
    await button(page, "Look now").click();
    await page.waitForTimeout(appearsMs);
    const check = name === undefined ? askedAny(page) : asked(page, name);
    if (await check.isVisible()) return;
  }
  throw new Error("The check did not open.");
}
