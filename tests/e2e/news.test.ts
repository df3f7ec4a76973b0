import { execFileSync } from "node:child_process";
import { cpSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openStore } from "../../electron/store/store.ts";
import { launchApp, launchLoopback, waitFor } from "./support/launch.ts";
import { root } from "./support/programs.ts";
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

describe("a build that was told where new versions are", () => {
  const releases = "https://example.org/pebblechime/releases";
  const work = temporaryFolder();
  const appFolder = join(work.path, "app");
  let app: Awaited<ReturnType<typeof launchApp>>;

  beforeEach(async () => {
    for (const part of ["dist", "assets", "package.json"])
      cpSync(join(root, part), join(appFolder, part), { recursive: true });
    symlinkSync(join(root, "node_modules"), join(appFolder, "node_modules"), "junction");
    execFileSync(
      process.execPath,
      [
        join(root, "node_modules", "vite", "bin", "vite.js"),
        ...["build", join(root, "src"), "--config", join(root, "vite.config.ts")],
        ...["--outDir", join(appFolder, "dist", "app"), "--emptyOutDir", "--logLevel", "error"],
      ],
      { cwd: root, env: { ...process.env, PEBBLECHIME_RELEASES: releases } },
    );
    const data = join(work.path, "data");
    app = await launchApp({ dataFolder: data, args: ["--sample"], appFolder });
  });
  afterEach(async () => {
    await app.kill();
    work.remove();
  });

  it("leads there by a press, in the user's browser and nowhere else", async () => {
    await app.evaluate((electron) => {
      globalThis.openedOutside = [];
      electron.shell.openExternal = async (address) => {
        globalThis.openedOutside.push(address);
      };
    }, null);
    const opened = () => app.evaluate(() => globalThis.openedOutside, null);
    const page = await app.page();
    const asked: string[] = [];
    // Of this page: the stand-in sees a window that it does not let open begin to load.
    page.on("request", (request) => asked.push(request.url()));
    await page.getByRole("link", { name: "Settings" }).click();
    const link = page.getByRole("link", { name: "Look for a new version" });
    await link.waitFor();
    expect(await opened()).toEqual([]);
    const before = page.url();
    await link.click();
    await waitFor(async () => (await opened()).length > 0 || null, "the address to be handed over");
    expect(await opened()).toEqual([releases]);
    expect(page.url()).toBe(before);
    expect(app.windows()).toEqual([page]);
    expect(asked.filter((address) => !address.startsWith(app.address("/")))).toEqual([]);
  });
});
