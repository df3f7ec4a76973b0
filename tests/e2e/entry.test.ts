import { execFile } from "node:child_process";
import { createServer } from "node:http";
import { setTimeout as pause } from "node:timers/promises";
import { promisify } from "node:util";
import type { Page } from "playwright";
import { expect, it } from "vitest";
import { WebSocketServer } from "ws";
import { launchLoopback } from "./support/launch.ts";
import { oneApp } from "./support/one-app.ts";
import { built } from "./support/programs.ts";
import { makeGroup } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const app = oneApp();
const notLetIn = "This tab does not have access";
const usedUp = "This address no longer opens anything";
const stopped = "This page has stopped, to be safe";
const today = (page: Page) => page.getByRole("heading", { name: "Today", exact: true });

it("A tab keeps what lets it in through a reload, hands it to the windows it opens, and to no other tab", async () => {
  const page = await app.open("--sample");
  await today(page).waitFor();
  // The key is in no address any more, so neither in the history.
  expect(page.url()).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
  await page.reload();
  await today(page).waitFor();

  const opened = await app.another("/board");
  await opened.getByRole("heading", { name: "Class board" }).waitFor({ state: "attached" });

  // Links that are wanted in a tab of their own, by key or by the middle button.
  for (const how of [{ modifiers: ["ControlOrMeta" as const] }, { button: "middle" as const }]) {
    const [apart] = await Promise.all([
      app.context().waitForEvent("page"),
      page.getByRole("link", { name: "Groups" }).click(how),
    ]);
    await apart.getByRole("heading", { name: "Groups", exact: true }).waitFor();
    await apart.close();
  }

  const typed = await app.context().newPage();
  await typed.goto(page.url());
  await typed.getByRole("heading", { name: notLetIn }).waitFor();
  await typed.getByText("start it again").waitFor();
  expect(await typed.getByText("Sample class").count()).toBe(0);
});

it("An address is good for one page; another, pasted into a tab that was turned away, opens it", async () => {
  const folder = temporaryFolder();
  const first = await launchLoopback({ dataFolder: folder.path });
  try {
    const page = await first.page();
    await page.getByRole("heading", { name: "Welcome" }).waitFor();
    const address = /http:\/\/\S+/.exec(first.output())?.[0] ?? "";
    const again = await first.context.newPage();
    await again.goto(address);
    await again.getByRole("heading", { name: usedUp }).waitFor();
    await again.reload();
    await again.getByRole("heading", { name: usedUp }).waitFor();
    // One more start with the same data gives one more address of the same app.
    const joining = await promisify(execFile)(process.execPath, [
      built("loopback.js"),
      "--quiet",
      "--data",
      folder.path,
    ]);
    const fresh = /http:\/\/\S+/.exec(joining.stdout)?.[0] ?? "";
    expect(new URL(fresh).origin).toBe(new URL(address).origin);
    await again.evaluate((pasted) => window.location.assign(pasted), fresh);
    await again.getByRole("heading", { name: "Welcome" }).waitFor();
    expect(again.url()).not.toContain("key");
    await page.reload();
    await page.getByRole("heading", { name: "Welcome" }).waitFor();
  } finally {
    await first.close();
    folder.remove();
  }
});

/** Has the page load itself again in the moment in which it keeps its ticket, once. */
function loadAgain(whether: "before" | "after") {
  if (window.name === "again") return;
  const { setItem } = Storage.prototype;
  let kept = 0;
  Storage.prototype.setItem = function (...entry) {
    kept += 1;
    // The first is the invitation of the address.
    if (kept === 1) return setItem.apply(this, entry);
    window.name = "again";
    window.location.reload();
    if (whether === "before") throw new Error("This page is gone.");
    setItem.apply(this, entry);
  };
}

it.each(["before", "after"] as const)(
  "A page that is loaded again in the moment of its entry, %s it keeps its ticket, is let in",
  async (whether) => {
    const welcome = (of: Page) => of.getByRole("heading", { name: "Welcome" });
    await welcome(await app.open()).waitFor();
    const joining = ["--quiet", "--data", app.folder()];
    const { stdout } = await promisify(execFile)(process.execPath, [
      built("loopback.js"),
      ...joining,
    ]);
    const page = await app.context().newPage();
    await page.addInitScript(loadAgain, whether);
    await page.goto(/http:\/\/\S+/.exec(stdout)?.[0] ?? "");
    await page.waitForFunction(() => window.name === "again");
    await welcome(page).waitFor();
    await page.reload();
    await welcome(page).waitFor();
  },
);

it("No cookie is set, and another port of this machine is sent nothing that opens the app", async () => {
  const page = await app.open();
  await today(page)
    .or(page.getByRole("heading", { name: "Welcome" }))
    .first()
    .waitFor();
  const heard: string[] = [];
  const other = createServer((request, response) => {
    heard.push(JSON.stringify([request.url, request.headers]));
    response.setHeader("content-type", "text/html");
    response.end("<img src=/picture.png>");
  });
  await new Promise<void>((resolve) => other.listen(0, "127.0.0.1", resolve));
  const kept = await page.evaluate(() => sessionStorage.getItem("pebblechime-ticket") ?? "");
  const { id, secret } = JSON.parse(kept);
  const visit = await app.context().newPage();
  // The server listens, so it has an address with a port.
  await visit.goto(`http://127.0.0.1:${Object(other.address()).port}/`);
  await expect.poll(() => heard.length).toBeGreaterThan(1);
  expect(await app.context().cookies()).toEqual([]);
  expect(heard.join()).not.toContain("cookie");
  expect(heard.join()).not.toContain(id);
  expect(heard.join()).not.toContain(secret);
  expect(await visit.evaluate(() => sessionStorage.length)).toBe(0);
  other.close();
});

it("A page whose host was replaced by another program tells it nothing that was typed, and says so", async () => {
  const folder = temporaryFolder();
  const running = await launchLoopback({ dataFolder: folder.path });
  const page = await running.page();
  const heard: string[] = [];
  try {
    await makeGroup(page, "Room 12", ["Ash", "Birch"]);
    const { port } = new URL(page.url());
    const dead = running.ended;
    process.kill(running.pid, "SIGKILL");
    await dead;
    const stranger = createServer((request, response) => {
      heard.push(`${request.method} ${request.url}`);
      response.end("var stranger = true;");
    });
    const sockets = new WebSocketServer({ server: stranger });
    sockets.on("connection", (socket) =>
      socket.on("message", (data) => {
        heard.push(data.toString());
        socket.send(JSON.stringify({ proof: "0".repeat(64), nonce: "made-up-nonce" }));
      }),
    );
    await page.getByLabel("Add students").fill("Juniper");
    // A page that was not opened yet is not asked of whoever answers.
    await page.getByRole("link", { name: "Settings" }).click();
    await new Promise<void>((resolve) => stranger.listen(Number(port), "127.0.0.1", resolve));
    await page.getByRole("heading", { name: stopped }).waitFor({ timeout: 15_000 });
    await pause(500);
    const said = heard.filter((each) => !each.startsWith("GET"));
    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(/^\{"ticket":"[\w-]+","nonce":"[0-9a-f]+"\}$/);
    expect(heard.join()).not.toContain("Juniper");
    expect(heard.filter((each) => /\.js/.test(each))).toEqual([]);
    sockets.close();
    stranger.closeAllConnections();
    stranger.close();
  } finally {
    await running.kill();
    folder.remove();
  }
});

it("Text becomes a program in no other way than the two helpers' addresses", async () => {
  const page = await app.open("--sample");
  const errors: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  page.on("pageerror", (error) => errors.push(error.message));
  // Both helpers run: the trend on a class's page, the figures of a plan.
  await page.getByRole("link", { name: "Sample class (invented)" }).first().click();
  const plan = page.locator("a[href*='/plans/']").first();
  await plan.click();
  await page.getByText(/^What can sessions tell/).click();
  await page.locator(".chart").first().waitFor();
  const workers = () => page.workers().map((worker) => new URL(worker.url()).pathname);
  await expect.poll(workers).toContainEqual(expect.stringMatching(/^\/assets\/compute\.worker-/));
  await page.getByRole("link", { name: "Progress" }).first().click();
  await expect.poll(workers).toContainEqual(expect.stringMatching(/^\/assets\/analysis\.worker-/));
  expect(errors).toEqual([]);

  const refused = await page.evaluate(() => {
    const types = window.trustedTypes;
    const same = (text: string) => text;
    const lets = { createScriptURL: same, createHTML: same };
    const tries: Record<string, () => unknown> = {
      worker: () => new Worker("/assets/other.js"),
      html: () => {
        document.createElement("div").innerHTML = "<b>x</b>";
      },
      policy: () => types?.createPolicy("other", lets),
      second: () => types?.createPolicy("default", lets),
    };
    return Object.entries(tries).map(([name, attempt]) => {
      try {
        attempt();
        return `${name} worked`;
      } catch {
        return `${name} refused`;
      }
    });
  });
  expect(refused).toEqual(["worker refused", "html refused", "policy refused", "second refused"]);
});
