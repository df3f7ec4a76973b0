import type { Browser, Page } from "playwright";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openBrowser, waitFor } from "./support/launch.ts";
import { oneApp } from "./support/one-app.ts";
import { marksLogged, type SilentClass, silentClass } from "./support/silent-class.ts";
import { appearsMs, button, link } from "./support/steps.ts";

const app = oneApp();
const phone = { width: 320, height: 568 };
const tablet = { width: 768, height: 1024 };

/** Another browser than the teacher's: nothing of hers is in it. */
let devices: Browser;
beforeAll(async () => {
  devices = await openBrowser();
});
afterAll(() => devices.close());

/** A device of its own, with the size of a phone or a tablet. */
async function device(viewport = phone): Promise<Page> {
  const context = await devices.newContext({ viewport, hasTouch: true });
  return context.newPage();
}

/** Switches seats on, prints slips and opens seats; the slips' codes by seat. */
async function openSeats(page: Page): Promise<{ address: string; codes: Map<number, string> }> {
  await link(page, "Settings").click();
  await page.getByText("Use seats").click();
  await link(page, "Groups").first().click();
  await link(page, "Room 12").first().click();
  await link(page, "Seats").click();
  await link(page, "Make slips for all").click();
  await button(page, "Make slips for all seats").click();
  await page.locator(".seat-slip").first().waitFor();
  const codes = new Map<number, string>();
  for (const slip of await page.locator(".seat-slip").all()) {
    const number = /\d+/.exec((await slip.getByRole("heading").textContent()) ?? "")?.[0];
    codes.set(Number(number), (await slip.locator(".seat-slip-code").textContent()) ?? "");
  }
  await link(page, "Seats").first().click();
  await button(page, "Open seats").click();
  await page.getByText("Seats are open until").waitFor();
  const address = (await page.locator(".seats-address").first().textContent()) ?? "";
  return { address, codes };
}

async function join(page: Page, address: string, code: string): Promise<void> {
  await page.goto(`${address}/#${code.replace("-", "")}`);
  await page.getByRole("button", { name: "Ready", exact: true }).click();
  await page.getByText("All quiet. Your seat is ready.").waitFor();
}

/** From the group's seats into a running session, where the teacher alone looks. */
async function startPrivately(page: Page): Promise<void> {
  await link(page, "Room 12").first().click();
  await button(page, "Start a session").click();
  await button(page, "Start the session").click();
  await button(page, "Teacher’s view").click();
}

async function answer(seat: Page, name: "Yes, I was working" | "No, I was not working") {
  await seat.getByRole("button", { name }).waitFor({ timeout: 40_000 });
  await seat.waitForTimeout(680);
  await seat.getByRole("button", { name }).click();
}

describe("Seats", () => {
  let room: SilentClass;

  it("join by slip, show a cue, and hand in answers; the teacher sees who joined", async () => {
    room = silentClass(app.folder(), ["Fern", "Robin"]);
    const page = await app.open("--speed", "10", "--seats-port", "0");
    const { address, codes } = await openSeats(page);
    const [small, large] = [await device(phone), await device(tablet)];
    await join(small, address, codes.get(1) ?? "");
    await join(large, address, codes.get(2) ?? "");
    // A code is in no address bar and in no request.
    expect(new URL(small.url()).hash).toBe("");
    await page.locator(".seats-state-joined").nth(1).waitFor();
    await startPrivately(page);
    await small.getByText("Do your work.").waitFor();
    await answer(small, "Yes, I was working");
    await small.getByText("Recorded", { exact: true }).waitFor();
    await answer(large, "No, I was not working");
    await large.getByText("Recorded", { exact: true }).waitFor();
    // Nothing on the page goes beyond its edge.
    const wide = await small.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBeLessThanOrEqual(phone.width);
    await button(page, "End").click();
    await page.waitForTimeout(appearsMs);
    await button(page, "End it").click();
    await small.getByText("Done. Thank you.").waitFor();
    await app.close();
    const marks = await waitFor(() => marksLogged(app.folder(), room), "the marks");
    expect(marks).toContainEqual(["on", "Fern", expect.any(Number), "in time"]);
    expect(marks).toContainEqual(["off", "Robin", expect.any(Number), "in time"]);
  });
});
