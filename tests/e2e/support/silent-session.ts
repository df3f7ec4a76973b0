// Holds one whole session in the app and prints what came of it as JSON, on the last line:
//   node silent-session.ts FOLDER desktop|loopback
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright";
import { type App, type LoopbackApp, launchApp, launchLoopback } from "./launch.ts";
import { answerOnTile, button, makeGroup, showTiles } from "./steps.ts";

const [folder = "", host = ""] = process.argv.slice(2);
const asked = join(folder, `asked-${host}`);
process.env.PEBBLECHIME_ASKED = asked;
process.env.NODE_OPTIONS = `--import=${new URL("refuse-network.mjs", import.meta.url).href}`;

const options = { dataFolder: join(folder, `data-${host}`), args: ["--speed", "60"] };
const app: App | LoopbackApp =
  host === "desktop" ? await launchApp(options) : await launchLoopback(options);
const page = await app.page();
const pageAsked: string[] = [];
page.context().on("request", (request) => note(request.url()));
page.on("websocket", (socket) => note(socket.url()));
const row = await wholeSession(page);
const hostAsked = existsSync(asked) ? readFileSync(asked, "utf8").trim().split("\n") : [];
await app.kill();
process.stdout.write(`\n${JSON.stringify({ row, asked: [...pageAsked, ...hostAsked] })}`);
process.exit(0);

/** Whatever the page asks of anybody but the host that served it. */
function note(address: string): void {
  const { protocol, host: asks } = new URL(address);
  if (!/^(blob|data):$/.test(protocol) && asks !== new URL(page.url()).host)
    pageAsked.push(address);
}

async function wholeSession(page: Page): Promise<string> {
  await makeGroup(page, "Silent", ["Ana", "Ben"]);
  await button(page, "Start a session").click();
  await button(page, "Hear the chime").click();
  await button(page, "Start the session").click();
  await showTiles(page);
  await answerOnTile(page, "Ana", "yes");
  await button(page, "Show the results").click({ timeout: 90_000 });
  return (await page.getByRole("row", { name: /^Ana/ }).textContent()) ?? "";
}
