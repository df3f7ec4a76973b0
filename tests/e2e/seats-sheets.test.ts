import { afterEach, expect, it } from "vitest";
import { type LoopbackApp, launchLoopback } from "./support/launch.ts";
import { switchSeatsOn } from "./support/seats.ts";
import { silentClass } from "./support/silent-class.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

let app: LoopbackApp | null = null;
const data = temporaryFolder();
afterEach(async () => {
  await app?.kill();
  app = null;
  data.remove();
});

const cases = ["English", "Español"].flatMap((language) =>
  (["A4", "Letter"] as const).map((paper) => ({ language, paper })),
);

it("Sheets about seats hold all that a teacher, a technician and a room without devices need, and fit", async () => {
  silentClass(data.path, ["Fern"]);
  app = await launchLoopback({ dataFolder: data.path, args: ["--seats-port", "4711"] });
  const page = await app.page();
  await switchSeatsOn(page);
  await page.waitForURL(/\/groups\/[^/]+\/seats$/);
  const { origin, pathname } = new URL(page.url());
  for (const { language, paper } of cases) {
    await page.goto(`${origin}/settings`);
    await page.getByText(language, { exact: true }).click();
    await page.getByText(paper, { exact: true }).click();
    await page.getByRole("radio", { name: paper, checked: true }).waitFor();
    await page.goto(
      `${origin}${pathname.replace(/\/groups\/([^/]+)\/seats/, "/print/seats/$1/sheets")}`,
    );
    const sheets = page.locator(".sheet");
    await sheets.nth(2).waitFor();
    await page.evaluate(() => document.fonts.ready.then(() => undefined));
    expect(await sheets.count()).toBe(3);
    expect(await sheets.nth(0).locator("ol > li").count()).toBe(3);
    const technical = (await sheets.nth(1).textContent()) ?? "";
    for (const word of ["TCP 4711", "--seats-port", "--seats-an-address", "--seats-certificate"]) {
      expect(technical).toContain(word);
    }
    expect(await sheets.nth(1).locator("dt").count()).toBe(8);
    expect(await sheets.nth(2).locator("ol > li").count()).toBe(5);
    const beyond = await sheets.evaluateAll((all) =>
      all.flatMap((sheet) => {
        const { bottom, right } = sheet.getBoundingClientRect();
        const { paddingBottom, paddingRight } = getComputedStyle(sheet);
        return [...sheet.querySelectorAll("*")].flatMap((part) => {
          const box = part.getBoundingClientRect();
          const isBelow = box.bottom > bottom - Number.parseFloat(paddingBottom) + 1;
          const isBeside = box.right > right - Number.parseFloat(paddingRight) + 1;
          return isBelow || isBeside ? [part.textContent] : [];
        });
      }),
    );
    expect(beyond, `${language} ${paper}`).toEqual([]);
  }
});
