import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright";
import { launchLoopback } from "../tests/e2e/support/launch.ts";
import { root } from "../tests/e2e/support/programs.ts";
import { temporaryFolder } from "../tests/e2e/support/temporary-folder.ts";

// Takes a picture of every screen of the running app, with the invented class: at a laptop's and at a
// projector's size, on day and on evening paper. The README's three pictures are three of them.
// Usage: npm run pictures [-- FOLDER]

const sizes = [
  { name: "laptop", width: 1366, height: 768 },
  { name: "projector", width: 1920, height: 1080 },
];
const papers = ["light", "dark"] as const;
const folder = process.argv[2] ?? join(root, "build", "pictures");
const readme = join(root, "docs", "pictures");
mkdirSync(folder, { recursive: true });
mkdirSync(readme, { recursive: true });

const data = temporaryFolder();
const app = await launchLoopback({ dataFolder: data.path, args: ["--sample", "--speed", "20"] });
try {
  const page = await app.page();
  const origin = new URL(page.url()).origin;
  await page.getByRole("link", { name: "Sample class (invented)" }).first().waitFor();
  const groupId = await lastPart(page, "a[href^='/groups/']");
  const take = (name: string, address: string, ready: string, isReadme = false) =>
    pictures(page, name, `${origin}${address}`, ready, isReadme);

  await take("today", "/", ".today-groups", true);
  await take("groups", "/groups", ".groups-row");
  await take("group", `/groups/${groupId}`, ".groups-student");
  await page.goto(`${origin}/groups/${groupId}`);
  const plan = await page.locator("a[href*='/plans/']").first().getAttribute("href");
  await take("points", `/groups/${groupId}/points`, ".points-row");
  await take("teams", `/groups/${groupId}/teams`, ".teams-card");
  await take("pairs", `/groups/${groupId}/pairs`, ".roll-names");
  await take("plan", plan ?? "/", ".plan-happens-cues");
  await take("practice", `/groups/${groupId}/practice`, "main h1");
  await take("held", `/groups/${groupId}/held`, "main h1");
  await take("observe", `/groups/${groupId}/observe`, "main h1");
  await take(
    "print-cards",
    plan?.replace("/groups/", "/print/cards/").replace("/plans", "") ?? "/",
    ".sheet",
  );
  await take("progress", `/progress/${groupId}`, ".chart", true);
  await take("how-sure", `/progress/how-sure/${groupId}`, "table");
  await page.goto(`${origin}/progress/${groupId}`);
  const student = await page
    .locator(`a[href^='/progress/${groupId}/']`)
    .first()
    .getAttribute("href");
  await take("student", student ?? "/", ".chart");
  await take("own", student?.replace("/progress/", "/own/") ?? "/", ".own-sessions");
  await take("print-family", `/print/family/${groupId}`, ".sheet");
  const papers = student?.replace("/progress/", "/groups/").replace(/\/([^/]+)$/, "/students/$1");
  await take("agreed", `${papers}/agreed`, ".home-lines");
  await take("home-card", `${papers}/home-card`, ".page-section");
  await take("contract", `${papers}/contract`, ".page-section");
  await take("home-cards", `/groups/${groupId}/home-cards`, ".home-card");
  await take("transfer", `/groups/${groupId}/transfer`, "main h1");
  await take("settings", "/settings", "main h1");
  await page.goto(`${origin}/`);
  const cards = await page.locator("a[href$='/cards']").first().getAttribute("href");
  await take("cards", cards ?? "/", "[role=grid]");

  await page.goto(`${origin}/`);
  await page
    .getByRole("button", { name: /Start a session/ })
    .first()
    .click();
  await page.getByRole("button", { name: "Start the session" }).click();
  await page.waitForURL(/\/session\//);
  const session = new URL(page.url()).pathname;
  await page.getByRole("button", { name: "Students' tiles" }).click();
  await page.locator(".tile-answer:enabled").first().waitFor({ timeout: 60_000 });
  await page.getByRole("button", { name: "Pause" }).click();
  await take("session", session, ".tiles-grid", true);
  await take("board", "/board", ".cue-sign");
  await take("tiles", "/tiles", ".tiles-grid");
  console.log(`Pictures are in ${folder}, the README's in ${readme}.`);
} finally {
  await app.close();
  data.remove();
}

async function lastPart(page: Page, selector: string): Promise<string> {
  const href = await page.locator(selector).first().getAttribute("href");
  return href?.split("/").at(-1) ?? "";
}

async function pictures(
  page: Page,
  name: string,
  address: string,
  ready: string,
  isReadme: boolean,
) {
  for (const size of sizes) {
    await page.setViewportSize(size);
    for (const paper of papers) {
      await page.emulateMedia({ colorScheme: paper, reducedMotion: "reduce" });
      await page.goto(address);
      await page.locator(ready).first().waitFor();
      await page.evaluate(() => document.fonts.ready.then(() => undefined));
      await page.waitForTimeout(400);
      // A page that was not pressed yet may not sound, and says so; that is not what the picture is of.
      const soundOn = page.getByRole("button", { name: "Turn sound on" });
      if (await soundOn.isVisible()) {
        await soundOn.click();
        await soundOn.waitFor({ state: "hidden" });
      }
      await page.locator(ready).first().scrollIntoViewIfNeeded();
      await page.screenshot({ path: join(folder, `${name}-${size.name}-${paper}.png`) });
      if (isReadme && size.name === "laptop" && paper === "light") {
        await page.screenshot({ path: join(readme, `${name}.png`) });
      }
    }
  }
}
