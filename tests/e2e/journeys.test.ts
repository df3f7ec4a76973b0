import type { Page } from "playwright";
import { afterEach, describe, expect, it } from "vitest";
import { type HostedApp, hosts } from "./support/hosts.ts";
import { answerOnTile, button, link, makeGroup, openPlanMore, showTiles } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

let running: HostedApp | null = null;
let folders: ReturnType<typeof temporaryFolder>[] = [];

afterEach(async () => {
  await running?.close();
  running = null;
  for (const folder of folders) folder.remove();
  folders = [];
});

function freshFolder(): string {
  const folder = temporaryFolder();
  folders.push(folder);
  return folder.path;
}

const heading = (page: Page, name: string | RegExp) => page.getByRole("heading", { name });

/** Starts the only group's session; the first time the chime is heard before. */
async function start(page: Page, group: string) {
  await link(page, "Today").click();
  await button(page, `Start a session with ${group}`).click();
  await button(page, "Start the session").waitFor();
  const hear = button(page, "Hear the chime");
  if (await hear.isVisible()) await hear.click();
  await button(page, "Start the session").click();
  await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
}

async function recordOnPaper(page: Page) {
  await page.getByRole("link", { name: "First plan", exact: true }).click();
  await page.getByText("on paper", { exact: true }).click();
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await button(page, "Saved").waitFor();
}

const cuesSoFar = async (page: Page) =>
  Number(
    await page.locator(".strip-fact", { hasText: "Cues" }).locator(".strip-value").textContent(),
  );

async function waitForCues(page: Page, count: number) {
  await expect.poll(() => cuesSoFar(page), { timeout: 60_000 }).toBeGreaterThanOrEqual(count);
}

describe.each(hosts)("A teacher, $name", ({ launch }) => {
  const open = async (dataFolder: string, ...args: string[]) => {
    running = await launch({ dataFolder, args });
    return running.page();
  };

  it("makes a group, holds a session at the shared screen, sees each percentage, and finds it all again", async () => {
    const folder = freshFolder();
    const page = await open(folder, "--speed", "60");
    await makeGroup(page, "Table two", ["Fern", "Robin", "Sorrel"]);
    await start(page, "Table two");
    await waitForCues(page, 1);
    await showTiles(page);
    await answerOnTile(page, "Fern", "yes");
    await answerOnTile(page, "Robin", "no");
    // The class sees this screen: names with percentages wait for the teacher's press.
    await button(page, "Show the results").waitFor({ timeout: 60_000 });
    expect(await page.getByText(/\d%/).count()).toBe(0);
    await button(page, "Show the results").click();
    const row = page.getByRole("row", { name: /^Fern/ });
    expect(await row.textContent()).toMatch(/100%/);
    expect(await page.getByRole("row", { name: /^Robin/ }).textContent()).toMatch(/\b0%/);
    expect(await page.getByRole("row", { name: /^Sorrel/ }).textContent()).toContain(
      "Nothing recorded",
    );
    await running?.close();

    const again = await open(folder, "--speed", "60");
    await link(again, "Review").or(link(again, "Enter cards")).first().click();
    await heading(again, "Cards of Table two").waitFor();
    const grid = again.getByRole("grid");
    await expect.poll(() => grid.getByLabel(/^Fern, box \d+: working/).count()).toBe(1);
    await expect.poll(() => grid.getByLabel(/^Robin, box \d+: not working/).count()).toBe(1);
  });

  it("looks around in the invented class and removes it with one press", async () => {
    const page = await open(freshFolder());
    await button(page, "Show the sample class").click();
    await link(page, "Sample class (invented)").first().click();
    await page.getByText("This is an invented class").waitFor();
    await button(page, "Remove the sample class").click();
    await heading(page, "Welcome to your notebook").waitFor();
  });

  it("types in paper cards by keyboard, is told of a key that is no mark, and corrects it", async () => {
    const page = await open(freshFolder(), "--speed", "60");
    await makeGroup(page, "Paper group", ["Ash", "Birch"]);
    await recordOnPaper(page);
    await start(page, "Paper group");
    await waitForCues(page, 3);
    await button(page, "End").click();
    await button(page, "End it").click();
    await link(page, "Type in the cards").click();
    const grid = page.getByRole("grid");
    await grid.getByLabel("Ash, box 1: nothing recorded").focus();
    await page.keyboard.type("+-x");
    await page.getByText("Box 3 holds “x”, which is not a mark.").waitFor();
    await page.keyboard.type("+");
    await page.keyboard.press("Enter");
    await page.keyboard.type("yn");
    await page.keyboard.press("Enter");
    await page.getByText("All saved").waitFor();
    await page.reload();
    await grid.getByLabel("Ash, box 1: working").waitFor();
    await grid.getByLabel("Ash, box 2: not working").waitFor();
    await grid.getByLabel("Ash, box 3: working").waitFor();
    await grid.getByLabel("Birch, box 2: not working").waitFor();
  });

  it("is offered to go on with a session that the computer cut off, with nothing recorded lost", async () => {
    const folder = freshFolder();
    const page = await open(folder, "--speed", "30");
    await makeGroup(page, "Window side", ["Lark", "Teal"]);
    await start(page, "Window side");
    await waitForCues(page, 1);
    await showTiles(page);
    await answerOnTile(page, "Lark", "yes");
    await running?.kill();
    running = null;

    const again = await open(folder, "--speed", "30");
    await again.getByText(/A session with Window side was cut off after/).waitFor();
    await button(again, "Resume").click();
    await again.getByRole("region", { name: "Teacher’s strip" }).waitFor();
    await waitForCues(again, 1);
    const before = await cuesSoFar(again);
    await waitForCues(again, before + 1);
    await button(again, "End").click();
    await button(again, "End it").click();
    await button(again, "Show the results").click();
    expect(await again.getByRole("row", { name: /^Lark/ }).textContent()).toMatch(/100%/);
  });

  it("is told why a plan cannot be run and takes the nearest that can", async () => {
    const page = await open(freshFolder());
    await makeGroup(page, "Corner", ["Jay", "Kite"]);
    await page.getByRole("link", { name: "First plan", exact: true }).click();
    await openPlanMore(page);
    const shortest = page.getByLabel("Never closer than");
    await shortest.fill("300");
    await shortest.press("Tab");
    await page.getByText("The average must be longer than the shortest gap.").waitFor();
    expect(await page.getByRole("button", { name: "Save", exact: true }).isDisabled()).toBe(true);
    await button(page, "Use the nearest plan").click();
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await button(page, "Saved").waitFor();
  });
});
