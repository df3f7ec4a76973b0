import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright";
import type { Language } from "./words.ts";

export const sizes = [
  { name: "laptop", width: 1366, height: 768 },
  { name: "projector", width: 1920, height: 1080 },
] as const;
export const papers = ["light", "dark"] as const;

interface Asked {
  readonly folder: string;
  readonly language: Language;
  readonly host: "browser" | "shell";
  /** Only pictures whose name it matches; all when null. */
  readonly only: RegExp | null;
  /** Where the README's pictures go. */
  readonly readme: string;
}

export type Camera = ReturnType<typeof cameraOf>;

/** Takes a screen as it stands at both sizes and on both papers, and once more at its whole length. */
export function cameraOf({ folder, language, host, only, readme }: Asked) {
  const here = join(folder, `${host}-${language}`);
  mkdirSync(here, { recursive: true });
  const taken: string[] = [];
  const missed: string[] = [];

  const path = (...parts: readonly string[]) => join(here, `${parts.join("-")}.png`);

  async function take(page: Page, name: string, readmeName: string | null = null): Promise<void> {
    if (only !== null && !only.test(name)) return;
    for (const size of sizes) {
      await page.setViewportSize(size);
      for (const paper of papers) {
        await page.emulateMedia({ colorScheme: paper, reducedMotion: "reduce" });
        await page.evaluate(() => document.fonts.ready.then(() => undefined));
        await page.waitForTimeout(250);
        await page.screenshot({ path: path(name, size.name, paper) });
        if (
          readmeName !== null &&
          language === "en" &&
          size.name === "laptop" &&
          paper === "light"
        ) {
          await page.screenshot({ path: join(readme, `${readmeName}.png`) });
        }
      }
    }
    await page.setViewportSize(sizes[0]);
    await page.emulateMedia({ colorScheme: "light", reducedMotion: "reduce" });
    const length = await page.evaluate(() => document.documentElement.scrollHeight);
    if (length > sizes[0].height) {
      await page.screenshot({ path: path(name, "whole"), fullPage: true });
    }
    taken.push(name);
  }

  /** Draws one part of the round; what fails is said at the end and stops nothing else. */
  async function part(name: string, draw: () => Promise<unknown>): Promise<void> {
    try {
      await draw();
    } catch (error) {
      missed.push(`${host} ${language} ${name}: ${error instanceof Error ? error.message : error}`);
    }
  }

  return { take, part, taken, missed, wants: (name: string) => only === null || only.test(name) };
}
