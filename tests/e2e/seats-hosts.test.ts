import type { Page } from "playwright";
import { afterEach, expect, it } from "vitest";
import {
  type App,
  type LoopbackApp,
  launchApp,
  launchLoopback,
  waitFor,
} from "./support/launch.ts";
import { answer, devices, printAndOpen, startPrivately, switchSeatsOn } from "./support/seats.ts";
import { marksLogged, silentClass } from "./support/silent-class.ts";
import { appearsMs, button, link } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const device = devices();
let app: App | LoopbackApp | null = null;
let data: ReturnType<typeof temporaryFolder>;
afterEach(async () => {
  await app?.kill();
  app = null;
  data.remove();
});

const args = ["--speed", "10", "--seats-port", "0"];

/** From the group's seats to an answer of a device; the device's page. */
async function lesson(page: Page): Promise<Page> {
  const { address, codes } = await printAndOpen(page);
  const seat = await device();
  await seat.goto(`${address}/#${(codes.get(1) ?? "").replace("-", "")}`);
  await button(seat, "Ready").click();
  await startPrivately(page);
  await seat.getByText("Do your work.").waitFor();
  await answer(seat, "Yes, I was working");
  await endSession(page);
  await seat.getByText("Done. Thank you.").waitFor();
  return seat;
}

async function endSession(page: Page): Promise<void> {
  await button(page, "End").click();
  await page.waitForTimeout(appearsMs);
  await button(page, "End it").click();
}

it("Seats open from a browser's host, and answers are kept", async () => {
  data = temporaryFolder();
  const room = silentClass(data.path, ["Fern", "Robin"]);
  app = await launchLoopback({ dataFolder: data.path, args });
  const page = await app.page();
  await switchSeatsOn(page);
  await lesson(page);
  await app.close();
  const marks = await waitFor(() => marksLogged(data.path, room), "the marks");
  expect(marks).toContainEqual(["on", "Fern", expect.any(Number), "in time"]);
});

it("Seats open from the desktop's window, and close when it is locked or sleeps", async () => {
  data = temporaryFolder();
  const room = silentClass(data.path, ["Fern", "Robin"]);
  const shell = await launchApp({ dataFolder: data.path, args });
  app = shell;
  const page = await shell.page();
  await switchSeatsOn(page);
  await button(page, "Open seats").click();
  // In the middle of a session a lock cuts nobody off, and sleep does; the strip says so.
  await page.getByText("Seats are open until").waitFor();
  await startPrivately(page);
  await page.getByText("No seat has joined.").waitFor();
  await shell.power("lock-screen");
  await page.waitForTimeout(500);
  await page.getByText("No seat has joined.").waitFor();
  await shell.power("suspend");
  await page.getByText("Seats closed when this computer went to sleep.").waitFor();
  await shell.power("resume");
  await endSession(page);
  await link(page, "Groups").first().click();
  await link(page, "Room 12").first().click();
  await link(page, "Seats").click();
  const seat = await lesson(page);
  await shell.power("lock-screen");
  await seat.getByText("Seats are closed. Your teacher opens them.").waitFor();
  await shell.close();
  const marks = await waitFor(() => marksLogged(data.path, room), "the marks");
  expect(marks).toContainEqual(["on", "Fern", expect.any(Number), "in time"]);
});
