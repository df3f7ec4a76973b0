import { cpSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import { extractAll } from "@electron/asar";
import type { Page } from "playwright";
import { type App, launchApp } from "./launch.ts";
import { answerOnTile, button, link, makeGroup, showTiles } from "./steps.ts";

/**
 * A teacher's first session and the start after it, by the main and preload of an archive in the stand-in:
 * a new group, its students, the chime, a cue, two marks, the end, the results; then all of it again.
 *
 * @param work a folder to work in, made here
 * @returns what was not as it must be
 */
export async function packedJourney(archive: string, work: string): Promise<string[]> {
  const appFolder = unpack(archive, join(work, "app"));
  const options = { dataFolder: join(work, "data"), args: ["--speed", "60"], appFolder };
  try {
    const results = await inApp(await launchApp(options), firstSession);
    const kept = await inApp(await launchApp(options), keptSession);
    return [...results, ...kept];
  } catch (error) {
    return [String(error)];
  }
}

/** What lies beside the archive is what the system loads; here both come into one folder, which Node can run. */
function unpack(archive: string, folder: string): string {
  mkdirSync(folder, { recursive: true });
  extractAll(archive, folder);
  cpSync(`${archive}.unpacked`, folder, { recursive: true });
  return folder;
}

async function inApp(app: App, walk: (page: Page) => Promise<string[]>): Promise<string[]> {
  try {
    return await walk(await app.page());
  } finally {
    await app.kill();
  }
}

async function firstSession(page: Page): Promise<string[]> {
  await makeGroup(page, "Packed", ["Ana", "Ben", "Cleo"]);
  await button(page, "Start a session").click();
  await button(page, "Hear the chime").click();
  await button(page, "Start the session").click();
  await showTiles(page);
  await answerOnTile(page, "Ana", "yes");
  await answerOnTile(page, "Ben", "no");
  await button(page, "End").click();
  await button(page, "End it").click();
  await button(page, "Show the results").click();
  const wanted = [
    ["Ana", /\b100%/],
    ["Ben", /\b0%/],
    ["Cleo", /Nothing recorded/],
  ] as const;
  const against: string[] = [];
  for (const [name, wantedText] of wanted) {
    const text =
      (await page.getByRole("row", { name: new RegExp(`^${name}`) }).textContent()) ?? "";
    if (!wantedText.test(text)) against.push(`the results say of ${name}: ${text}`);
  }
  return against;
}

/** After the next start: the group, its students and the marks. */
async function keptSession(page: Page): Promise<string[]> {
  await link(page, "Review").or(link(page, "Enter cards")).first().click();
  await page.getByRole("heading", { name: "Cards of Packed" }).waitFor();
  const grid = page.getByRole("grid");
  await grid.getByLabel(/^Cleo, box 1: /).waitFor();
  const against: string[] = [];
  for (const said of ["Ana, box \\d+: working", "Ben, box \\d+: not working"]) {
    const count = await grid.getByLabel(new RegExp(`^${said}`)).count();
    if (count !== 1) against.push(`after the next start, "${said}" stands ${count} times`);
  }
  return against;
}
