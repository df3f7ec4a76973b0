import type { Page } from "playwright";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openStore } from "../../electron/store/store.ts";
import { launchLoopback } from "./support/launch.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

describe("after an update", () => {
  let folder: ReturnType<typeof temporaryFolder>;
  let app: Awaited<ReturnType<typeof launchLoopback>>;
  let page: Page;

  // Anew for each test: what is new is put away for good.
  beforeEach(async () => {
    folder = temporaryFolder();
    const store = openStore({ folder: folder.path, now: Date.now });
    store.groups.create({ name: "Room 4", target: "", isSample: false }, Date.now());
    store.settings.save({ newsSeen: "0.1.0" });
    store.close();
    app = await launchLoopback({ dataFolder: folder.path, args: ["--sample"] });
    page = await app.page();
  });
  afterEach(async () => {
    await app.close();
    folder.remove();
  });

  it("Today says what is new until it is put away, and never again", async () => {
    const news = page.getByRole("heading", { name: /^What is new in \d/ });
    await news.waitFor();
    const start = page.getByRole("button", { name: /^Start a session with/ });
    // The last line to come: how the sample class went and where it is going.
    await page.getByText(/^Last session, .+ Since the program began/).waitFor();
    const before = await start.boundingBox();
    await page.getByRole("button", { name: "Got it" }).click();
    await news.waitFor({ state: "detached" });
    // Nothing that can be pressed has moved.
    expect(await start.boundingBox()).toEqual(before);
    await page.reload();
    await start.waitFor();
    expect(await news.count()).toBe(0);
  });

  it("a build that was told of no place shows no way to new versions", async () => {
    await page.getByRole("link", { name: "Settings" }).click();
    await page.getByRole("heading", { name: "About" }).waitFor();
    expect(await page.getByRole("link", { name: "Look for a new version" }).count()).toBe(0);
  });
});
