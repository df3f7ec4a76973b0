import { parse } from "@formatjs/icu-messageformat-parser";
import type { Page } from "playwright";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { catalogues } from "../../src/text/catalogue.ts";
import { everyRoute, sampleRoutes } from "./support/every-route.ts";
import { launchLoopback } from "./support/launch.ts";
import { buildInPseudo, longer, pseudo } from "./support/pseudo-language.ts";
import { lackOfRoom } from "./support/room-for-words.ts";
import { button } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

// WCAG 1.4.4, 1.4.10 and 1.4.12 ask that text is never lost when it takes more room; a language that is
// longer than English takes it on every screen at once.

const folder = temporaryFolder();
const built = temporaryFolder();
const laptop = { width: 1366, height: 768 };
const narrow = { width: 320, height: 640 };
let app: Awaited<ReturnType<typeof launchLoopback>>;
let page: Page;
let show: (route: string) => Promise<Page>;

beforeAll(async () => {
  await buildInPseudo(built.path);
  app = await launchLoopback({
    dataFolder: folder.path,
    args: ["--sample", "--speed", "20"],
    appFolder: built.path,
  });
  page = await app.page();
  show = await sampleRoutes(page);
});

afterAll(async () => {
  await app.close();
  folder.remove();
  built.remove();
});

describe("The longer language", () => {
  it("is longer by about 40 %, and needs the same values", () => {
    const messages = Object.values(catalogues.en);
    const length = (texts: readonly string[]) => texts.join("").length;
    const ratio = length(messages.map(pseudo)) / length(messages);
    expect(ratio).toBeGreaterThan(1.35);
    expect(ratio).toBeLessThan(1.45);
    expect(pseudo("{n, plural, one {# cue} other {# cues}} for {name}")).toBe(
      "[{n,plural,one{# cúúéé} other{# cúúééšš}} fóór {name}]",
    );
    expect(() => messages.map(pseudo).map((message) => parse(message))).not.toThrow();
  });

  it.each(everyRoute)("has room on %s", async (route) => {
    await page.setViewportSize(laptop);
    const shown = await show(route);
    for (const size of [laptop, narrow]) {
      await shown.setViewportSize(size);
      // Charts are drawn anew for the width a moment later.
      await expect
        .poll(() => shown.evaluate(lackOfRoom), { message: `${size.width} px` })
        .toEqual([]);
    }
  });

  it("has room in a running session, in each of its views", async () => {
    const inPseudo = (message: string) => button(page, `[${longer(message)}]`);
    await page.setViewportSize(laptop);
    await show("/groups/:groupId");
    await inPseudo("Start a session").click();
    await inPseudo("Start the session").click();
    await page.waitForURL(/\/session\//);
    const session = page.url();
    for (const size of [laptop, narrow]) {
      await page.setViewportSize(size);
      await page.goto(session);
      for (const view of ["Students’ tiles", "Class board", "Teacher’s view"]) {
        await inPseudo(view).click();
        await inPseudo(view).and(page.locator("[aria-pressed=true]")).waitFor();
        expect(await page.evaluate(lackOfRoom), `${view}, ${size.width} px`).toEqual([]);
      }
      for (const route of ["/board", "/tiles"]) {
        const shown = await show(route);
        await shown
          .locator(route === "/tiles" ? ".tile" : ".board")
          .first()
          .waitFor();
        expect(await shown.evaluate(lackOfRoom), `${route}, ${size.width} px`).toEqual([]);
      }
    }
  });

  it("has room in help and in a dialog", async () => {
    for (const size of [laptop, narrow]) {
      await page.setViewportSize(size);
      await show("/groups/:groupId/points");
      await button(page, pseudo("Help")).click();
      await page.locator(".help").waitFor();
      expect(await page.evaluate(lackOfRoom), `help, ${size.width} px`).toEqual([]);
      await page.keyboard.press("Escape");
      await button(page, pseudo("New privilege")).click();
      await page.getByRole("dialog").waitFor();
      expect(await page.evaluate(lackOfRoom), `dialog, ${size.width} px`).toEqual([]);
      await page.keyboard.press("Escape");
    }
  });
});
