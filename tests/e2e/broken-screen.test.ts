import { afterAll, expect, it } from "vitest";
import { launchLoopback } from "./support/launch.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const folder = temporaryFolder();
const app = await launchLoopback({ dataFolder: folder.path, args: ["--sample", "--speed", "10"] });

afterAll(async () => {
  await app.close();
  folder.remove();
});

it("a screen that breaks says so in words, and the running session goes on", async () => {
  const page = await app.page();
  await page
    .getByRole("button", { name: /Start a session/ })
    .first()
    .click();
  await page.getByRole("button", { name: "Start the session" }).click();
  await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();

  // The screen's file cannot be loaded, as after a damaged installation.
  const settings = /settings-screen/;
  await page.route(settings, (route) => route.abort());
  await page.getByRole("link", { name: "Settings" }).click();
  await page.getByRole("heading", { name: "This page stopped working" }).waitFor();

  await page.unroute(settings);
  await page.getByRole("button", { name: "Open the page again" }).click();
  await page.getByRole("heading", { name: "Settings" }).waitFor();
  await page.getByRole("link", { name: "Session running" }).click();
  await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
  expect(await page.getByText("Running", { exact: true }).isVisible()).toBe(true);
});
