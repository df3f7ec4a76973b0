import { copyFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { makeCertificates } from "../faults/seats/certificates.ts";
import { freePort } from "./support/free-port.ts";
import { openBrowser } from "./support/launch.ts";
import { oneApp } from "./support/one-app.ts";
import { printAndOpen, switchSeatsOn } from "./support/seats.ts";
import { silentClass } from "./support/silent-class.ts";
import { button } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const app = oneApp();

it("A certificate that ran out stops no start; a good one has slips, page and line say https", async () => {
  const folder = temporaryFolder();
  const made = makeCertificates(folder.path);
  const file = join(folder.path, "school.pem");
  copyFileSync(made.expired, file);
  silentClass(app.folder(), ["Fern", "Robin"]);
  const port = String(await freePort());
  const page = await app.open("--speed", "10", "--seats-port", port, "--seats-certificate", file);
  await switchSeatsOn(page);
  const said = page.getByText("Seats stay closed: the certificate has expired.");
  await said.waitFor();
  await button(page, "Open seats").click();
  await page.waitForTimeout(300);
  expect(await said.count()).toBe(1);
  await page.getByText("Seats are closed.").waitFor();
  copyFileSync(made.good, file);
  await button(page, "Open seats").click();
  await page.getByText("Seats are open until").waitFor();
  expect(await said.count()).toBe(0);
  await page.getByText("The line in the room is encrypted.").waitFor();
  await button(page, "Close seats").click();

  const { address, onSlips, codes } = await printAndOpen(page);
  expect(onSlips).toBe(`https://127.0.0.1:${port}`);
  expect(address).toBe(`https://127.0.0.1:${port}`);
  const browser = await openBrowser();
  // The browser knows no authority of ours; a school's devices know theirs.
  const seat = await (await browser.newContext({ ignoreHTTPSErrors: true })).newPage();
  const lines: string[] = [];
  seat.on("websocket", (line) => lines.push(line.url()));
  await seat.goto(`${address}/#${(codes.get(1) ?? "").replace("-", "")}`);
  await button(seat, "Ready").click();
  await seat.getByText("All quiet. Your seat is ready.").waitFor();
  expect(lines).toEqual([`wss://127.0.0.1:${port}/seat`]);
  await browser.close();
  folder.remove();
});
