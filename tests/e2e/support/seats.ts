import type { Browser, Page } from "playwright";
import { afterAll, beforeAll } from "vitest";
import { openBrowser } from "./launch.ts";
import { button, link } from "./steps.ts";

export const phone = { width: 320, height: 568 };
export const tablet = { width: 768, height: 1024 };

/** Opens devices, each of its own, in another browser than the teacher's: nothing of hers is in it. */
export function devices() {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(() => browser.close());
  return async (viewport = phone): Promise<Page> => {
    const context = await browser.newContext({ viewport, hasTouch: true });
    return context.newPage();
  };
}

/** Switches seats on and goes to those of the group. */
export async function switchSeatsOn(page: Page): Promise<void> {
  await link(page, "Settings").first().click();
  await page.getByText("Use seats").click();
  await link(page, "Groups").first().click();
  await link(page, "Room 12").first().click();
  await link(page, "Seats").click();
}

interface OpenSeats {
  /** Where devices find the page, as the teacher's screen says. */
  readonly address: string;
  /** The same as the slips say it. */
  readonly onSlips: string;
  /** By seat. */
  readonly codes: ReadonlyMap<number, string>;
}

/** Switches seats on, prints slips and opens seats. */
export async function openSeats(page: Page): Promise<OpenSeats> {
  await switchSeatsOn(page);
  return printAndOpen(page);
}

/** Prints slips and opens seats, from the group's seats. */
export async function printAndOpen(page: Page): Promise<OpenSeats> {
  await link(page, "Make slips for all").click();
  await button(page, "Make slips for all seats").click();
  await page.locator(".seat-slip").first().waitFor();
  const codes = new Map<number, string>();
  for (const slip of await page.locator(".seat-slip").all()) {
    const number = /\d+/.exec((await slip.getByRole("heading").textContent()) ?? "")?.[0];
    codes.set(Number(number), (await slip.locator(".seat-slip-code").textContent()) ?? "");
  }
  const onSlips = (await page.locator(".seat-slip strong").first().textContent()) ?? "";
  await link(page, "Seats").first().click();
  await button(page, "Open seats").click();
  await page.getByText("Seats are open until").waitFor();
  const address = (await page.locator(".seats-address").first().textContent()) ?? "";
  return { address, onSlips, codes };
}

export async function join(page: Page, address: string, code: string): Promise<void> {
  await page.goto(`${address}/#${code.replace("-", "")}`);
  await page.getByRole("button", { name: "Ready", exact: true }).click();
  await page.getByText("All quiet. Your seat is ready.").waitFor();
}

/** From the group's seats into a running session, where the teacher alone looks. */
export async function startPrivately(page: Page): Promise<void> {
  await link(page, "Room 12").first().click();
  await button(page, "Start a session").click();
  await button(page, "Start the session").click();
  await button(page, "Teacher’s view").click();
}

/** Answers a cue once what has appeared takes presses, until it is kept; again where the next one came between. */
export async function answer(seat: Page, name: "Yes, I was working" | "No, I was not working") {
  for (let tries = 0; tries < 10; tries += 1) {
    await seat.getByRole("button", { name }).waitFor({ timeout: 40_000 });
    await seat.waitForTimeout(680);
    await seat.getByRole("button", { name }).click();
    const isKept = seat
      .getByText(/^Recorded/)
      .waitFor({ timeout: 2_000 })
      .then(
        () => true,
        () => false,
      );
    if (await isKept) return;
  }
  throw new Error("No answer of the seat was kept.");
}
