// Holds one whole session in the app served to a browser, and prints what came of it as JSON:
//   node silent-session.ts FOLDER
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { launchLoopback } from "./launch.ts";
import { answerOnTile, button, makeGroup, showTiles } from "./steps.ts";

const [folder = ""] = process.argv.slice(2);
const asked = join(folder, "asked");
process.env.PEBBLECHIME_ASKED = asked;
process.env.NODE_OPTIONS = `--import=${new URL("refuse-network.mjs", import.meta.url).href}`;

const app = await launchLoopback({ dataFolder: join(folder, "data"), args: ["--speed", "60"] });
const page = await app.page();
const { origin } = new URL(page.url());
const pageAsked: string[] = [];
app.context.on("request", (request) => {
  const url = request.url();
  if (!url.startsWith(origin) && !/^(blob|data):/.test(url)) pageAsked.push(url);
});
await makeGroup(page, "Silent", ["Ana", "Ben"]);
await button(page, "Start a session").click();
const hear = button(page, "Hear the chime");
await hear.waitFor();
await hear.click();
await button(page, "Start the session").click();
await showTiles(page);
await answerOnTile(page, "Ana", "yes");
await button(page, "Show the results").waitFor({ timeout: 90_000 });
await button(page, "Show the results").click();
const row = (await page.getByRole("row", { name: /^Ana/ }).textContent()) ?? "";
const hostAsked = existsSync(asked) ? readFileSync(asked, "utf8").trim().split("\n") : [];
await app.kill();
process.stdout.write(JSON.stringify({ row, asked: [...pageAsked, ...hostAsked] }));
process.exit(0);
