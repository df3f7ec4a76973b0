import { expect, it } from "vitest";
import { freePort } from "./support/free-port.ts";
import { oneApp } from "./support/one-app.ts";
import { answer, devices, openSeats } from "./support/seats.ts";
import { silentClass } from "./support/silent-class.ts";
import { button, link } from "./support/steps.ts";

const app = oneApp();
const device = devices();

it("A plan can have students record on devices of their own, and says what to mind", async () => {
  const { groupId, planId } = silentClass(app.folder(), ["Fern", "Robin"]);
  const page = await app.open("--speed", "10", "--seats-port", String(await freePort()));
  await link(page, "Groups").first().click();
  await link(page, "Room 12").first().click();
  await link(page, "Every forty").first().click();
  const cautions = page.getByRole("note").filter({ hasText: "Earphones: one ear" });
  expect(await cautions.count()).toBe(0);
  await page.getByText("on a device of their own", { exact: true }).click();
  await cautions.getByText("No name, no camera, no microphone", { exact: false }).waitFor();
  await cautions.getByText("Ask families about light and sound").waitFor();
  // Seats are off until the teacher switches them on.
  await cautions.getByRole("link", { name: "Settings" }).waitFor();
  await page.getByText("on a device of their own; whoever has none marks a card").waitFor();
  await button(page, "Save").first().click();
  await page.getByText("Everything on this page is saved").waitFor();

  const { address, codes } = await openSeats(page);
  await page.goto(new URL(`/groups/${groupId}/plans/${planId}`, page.url()).href);
  await cautions.getByRole("link", { name: "Seats" }).click();
  await button(page, "Close seats").click();
  await link(page, "Room 12").first().click();
  await button(page, "Start a session").click();
  await button(page, "Start the session").click();
  // The teacher's screen is the teacher's own at once, and closed seats are said where they are missed.
  await page.getByText("Seats are closed.").waitFor();
  await button(page, "Open seats").click();
  await page.getByText("No seat has joined.").waitFor();
  const seat = await device();
  await seat.goto(`${address}/#${(codes.get(1) ?? "").replace("-", "")}`);
  await button(seat, "Ready").click();
  await page.getByText("1 seat has joined.").waitFor();
  await answer(seat, "Yes, I was working");
  await page.getByText(/1 answered, 1 not yet/).waitFor();
});
