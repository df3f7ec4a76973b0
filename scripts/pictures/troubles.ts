import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { databaseName } from "../../electron/store/file/backup.ts";
import { launchLoopback } from "../../tests/e2e/support/launch.ts";
import { temporaryFolder } from "../../tests/e2e/support/temporary-folder.ts";
import type { Camera } from "./camera.ts";
import { firstDay } from "./classes.ts";
import { type Language, wordsOf } from "./words.ts";

interface Asked {
  readonly camera: Camera;
  readonly language: Language;
}

/** What is shown where something has gone wrong. */
export async function troubleRound(asked: Asked): Promise<void> {
  const { camera } = asked;
  await camera.part("reading only", () => readingOnly(asked));
  await camera.part("damaged session", () => damagedSession(asked));
  await camera.part("lost host", () => lostHost(asked));
  await camera.part("cut off", () => cutOff(asked));
}

type App = Awaited<ReturnType<typeof launchLoopback>>;

async function withFolder(
  { language }: Asked,
  prepare: (folder: string, made: ReturnType<typeof firstDay>) => void,
  use: (app: App, made: ReturnType<typeof firstDay>, folder: string) => Promise<void>,
): Promise<void> {
  const data = temporaryFolder();
  const made = firstDay(data.path, language);
  prepare(data.path, made);
  const app = await launchLoopback({ dataFolder: data.path });
  try {
    await use(app, made, data.path);
  } finally {
    await app.close().catch(() => undefined);
    data.remove();
  }
}

/** A folder stands where the log's index should be: the file can be read, and nothing be written. */
const readingOnly = (asked: Asked) =>
  withFolder(
    asked,
    (folder) => mkdirSync(join(folder, `${databaseName}-shm`)),
    async (app, { groupId, planId, sessionId }) => {
      const page = await app.page();
      const { origin } = new URL(page.url());
      const { camera } = asked;
      await page.locator(".today-group").first().waitFor();
      await page.waitForTimeout(500);
      await camera.take(page, "reading-only-today");
      for (const [name, path] of [
        ["group", `/groups/${groupId}`],
        ["plan", `/groups/${groupId}/plans/${planId}`],
        ["settings", "/settings"],
        ["summary", `/session/${sessionId}`],
        ["groups", "/groups"],
      ] as const) {
        await page.goto(origin + path);
        await page.locator("main h1, main h2").first().waitFor();
        await page.waitForTimeout(500);
        await camera.take(page, `reading-only-${name}`);
      }
      const words = wordsOf(asked.language);
      await page.getByLabel(words.say("groups.name")).first().fill("Green table");
      await page.keyboard.press("Enter");
      await page.waitForTimeout(800);
      await camera.take(page, "refused-write");
    },
  );

/** One wrong byte where a mark of the session lies. */
const damagedSession = (asked: Asked) =>
  withFolder(
    asked,
    (folder) => {
      const path = join(folder, databaseName);
      const bytes = readFileSync(path);
      const at = bytes.lastIndexOf('"latenessMs"');
      if (at < 0) throw new Error("No entry to damage.");
      bytes.write("#", at + 2);
      writeFileSync(path, bytes);
      rmSync(`${path}-wal`, { force: true });
    },
    async (app, { groupId, sessionId }) => {
      const page = await app.page();
      const { origin } = new URL(page.url());
      for (const [name, path] of [
        ["today", "/"],
        ["session", `/session/${sessionId}`],
        ["cards", `/session/${sessionId}/cards`],
        ["progress", `/progress/${groupId}`],
        ["settings", "/settings"],
        ["today-after", "/"],
      ] as const) {
        await page.goto(origin + path);
        await page.locator("h1").first().waitFor();
        await page.waitForTimeout(900);
        await asked.camera.take(page, `damaged-${name}`);
      }
    },
  );

/** The host went away under its page; a tab that nobody let in; a page that broke. */
const lostHost = (asked: Asked) =>
  withFolder(
    asked,
    () => undefined,
    async (app, { groupId }) => {
      const page = await app.page();
      await page.locator(".today-group").first().waitFor();
      const { camera } = asked;
      const stranger = await app.context.newPage();
      await stranger.goto(new URL(page.url()).origin);
      await stranger.locator("h1").waitFor();
      await camera.take(stranger, "not-let-in");
      await stranger.close();
      await page.route(/group-progress-screen/, (route) => route.abort());
      await page.goto(`${new URL(page.url()).origin}/progress/${groupId}`);
      await page.locator(".crash").waitFor();
      await camera.take(page, "crash");
      await page.goto(new URL(page.url()).origin);
      await page.locator(".today-group").first().waitFor();
      await app.loseHost();
      await page.waitForTimeout(4_000);
      await camera.take(page, "host-lost");
    },
  );

/** The power went in the middle of a session; the next start finds it open. */
async function cutOff(asked: Asked): Promise<void> {
  const data = temporaryFolder();
  const { groupId } = firstDay(data.path, asked.language);
  const words = wordsOf(asked.language);
  try {
    const first = await launchLoopback({ dataFolder: data.path });
    const page = await first.page();
    await page.goto(`${new URL(page.url()).origin}/groups/${groupId}`);
    await page.getByRole("button", { name: words.say("groups.start") }).click();
    await page.getByRole("button", { name: words.say("soundCheck.hear") }).click();
    await page.getByRole("button", { name: words.say("soundCheck.start") }).click();
    await page.locator(".adult").waitFor();
    await page.goto(`${new URL(page.url()).origin}/`);
    await page.locator(".today-group").first().waitFor();
    await page.waitForTimeout(500);
    await asked.camera.take(page, "running-today");
    await first.kill();
    const again = await launchLoopback({ dataFolder: data.path });
    const found = await again.page();
    await found.locator(".today-group").first().waitFor();
    await found.waitForTimeout(700);
    await asked.camera.take(found, "cut-off-today");
    await again.close();
  } finally {
    data.remove();
  }
}
