import type { BrowserContext, Page } from "playwright";
import { afterEach } from "vitest";
import { type LoopbackApp, launchLoopback } from "./launch.ts";
import { temporaryFolder } from "./temporary-folder.ts";

/** A page that another one opens: it takes over the ticket of its opener's tab. */
export async function openedBy(opener: Page, path: string): Promise<Page> {
  const [page] = await Promise.all([
    opener.context().waitForEvent("page"),
    opener.evaluate((address) => void window.open(address), path),
  ]);
  await page.waitForLoadState();
  return page;
}

/** An app of its own for each test of a file, on a fresh data folder; both are gone after the test. */
export function oneApp() {
  let running: LoopbackApp | null = null;
  let kept: ReturnType<typeof temporaryFolder> | null = null;

  async function close(): Promise<void> {
    await running?.close();
    running = null;
  }

  /** The data folder, made when first asked for: what a test puts there the app finds. */
  function folder(): string {
    kept ??= temporaryFolder();
    return kept.path;
  }

  afterEach(async () => {
    await close();
    kept?.remove();
    kept = null;
  });

  return {
    folder,
    /** Starts the app, also once more after `close`, and gives its page. */
    async open(...args: string[]): Promise<Page> {
      running = await launchLoopback({ dataFolder: folder(), args });
      return running.page();
    },
    /** One more page of the app, opened by the first as the app itself does, so that it is let in. */
    async another(path: string): Promise<Page> {
      if (running === null) throw new Error("The app is not running.");
      return openedBy(await running.page(), path);
    },
    /** The browser's context, for further pages and permissions. */
    context(): BrowserContext {
      if (running === null) throw new Error("The app is not running.");
      return running.context;
    },
    /** Ends the app's host under its open pages. */
    async loseHost(): Promise<void> {
      await running?.loseHost();
    },
    close,
  };
}
