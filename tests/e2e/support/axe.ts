import AxeBuilder from "@axe-core/playwright";
import type { Page } from "playwright";

/**
 * Rules of WCAG 2.2, levels A and AA, as the axe rules check them; what no program can check (words, order,
 * sense) is looked at by people.
 */
const rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/** Those that a change of colors alone can break. */
const ofColors = ["color-contrast", "link-in-text-block"];

/** Axe without the page that it opens each time for the sake of frames: no page of the app has any. */
const axeOn = (page: Page) => new AxeBuilder({ page }).setLegacyMode(true);

const said = (axe: AxeBuilder) =>
  axe
    .analyze()
    .then(({ violations }) =>
      violations.map(
        ({ id, help, nodes }) =>
          `${id}: ${help}: ${nodes.map(({ html }) => html.slice(0, 120)).join(" | ")}`,
      ),
    );

/** What Axe finds wrong with a page as it is shown now; nothing, if all is well. */
export const axeFindings = (page: Page): Promise<string[]> => said(axeOn(page).withTags(rules));

/** The same in light, and then what the dark colors break. */
export async function axeFindingsInBoth(page: Page): Promise<string[]> {
  await page.emulateMedia({ colorScheme: "light", reducedMotion: "reduce" });
  const inLight = await axeFindings(page);
  await page.emulateMedia({ colorScheme: "dark", reducedMotion: "reduce" });
  const inDark = await said(axeOn(page).withRules(ofColors));
  return [...inLight, ...inDark.map((each) => `in the dark: ${each}`)];
}
