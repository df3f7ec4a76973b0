import { readFileSync } from "node:fs";
import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { button, link, makeGroup } from "./support/steps.ts";

const app = oneApp();

/** Every address of the app, as its routes name them. */
const addresses = [
  ...readFileSync("src/app/routes.tsx", "utf8").matchAll(/path: "([^"*]+)"/g),
].flatMap(([, path = ""]) =>
  path === "/print" ? [] : [path.startsWith("/") ? path : `/print/${path}`],
);

/** Whoever types these finds out there that nothing is earned here; no link leads to them. */
const saysSo = ["/groups/:groupId/points", "/session/:sessionId/quick-totals"];
/** Where points are switched on: by the school, and by a plan. */
const switches = ["/settings", "/groups/:groupId/plans/:planId"];

/** Other points: of a percentage, of a statistic, and the family's own at home, which no ledger keeps. */
const others = [
  /percentage points?/gi,
  /home points?/gi,
  /Points \(these belong to the family\)/gi,
  /Theil-Sen[^\n]*points a week/gi,
  /[\d.,–-]+ points?(?= \(standard|$|;)/gim,
  /the 10 points are common practice/gi,
  /[\d.]+ points(?=\t)/gi,
  /within about [\d.]+ points/gi,
  /one point per (session|school week)/gi,
  /point by point|point-by-point|point at the chart|from point to point/gi,
];

const visit = (page: Page, address: string) => page.goto(new URL(address, page.url()).href);

/** All that a page has to say has come when nothing was added for a while; a running clock goes on. */
async function standsStill(page: Page): Promise<void> {
  const read = async () =>
    (await page.locator("body").allInnerTexts()).join().replace(/[\d:.]+/g, "");
  let before = "";
  for (let tries = 0; tries < 40; tries += 1) {
    await page.waitForTimeout(250);
    const now = await read();
    if (now !== "" && now === before && !now.includes("One moment")) return;
    before = now;
  }
}

/** What an address says of points, line by line, with what a screen reader hears. */
async function saidOfPoints(page: Page, address: string): Promise<string[]> {
  await visit(page, address);
  await standsStill(page);
  const said = await page.evaluate(() => [
    ...[
      ...document.querySelectorAll("h1, h2, h3, p, li, th, td, dt, dd, label, button, a, summary"),
    ].map((each) => each.textContent ?? ""),
    ...[...document.querySelectorAll("[aria-label], [title], [placeholder]")].flatMap((each) =>
      ["aria-label", "title", "placeholder"].map((name) => each.getAttribute(name) ?? ""),
    ),
  ]);
  said.push(...(await page.locator("body").allInnerTexts()).flatMap((text) => text.split("\n")));
  const left = said.map((line) => others.reduce((text, other) => text.replace(other, ""), line));
  return left.filter((line) => /\bpoints?\b|privilege|\bexchang/i.test(line));
}

const fill = (address: string, ids: Readonly<Record<string, string>>): string =>
  address.replace(/:(\w+)/g, (_, name: string) => {
    const id = ids[name];
    if (id === undefined) throw new Error(`No id for ${name}.`);
    return id;
  });

const idIn = (address: string | null, before: string): string =>
  new RegExp(`${before}/([^/?#]+)`).exec(address ?? "")?.[1] ?? "";

/** A group's own page is open: ids of it, of its first plan and of its first student, whose contract opens. */
async function idsOf(page: Page) {
  const plan = await page.locator("a[href*='/plans/']").first().getAttribute("href");
  const groupId = idIn(page.url(), "groups");
  // Plans have such a menu too, and may be there before the students.
  await page
    .locator(".groups-student")
    .first()
    .getByRole("button", { name: /^More for / })
    .click();
  await page.getByRole("menuitem", { name: "Contract" }).click();
  await page.waitForURL(/\/contract$/);
  return { groupId, planId: idIn(plan, "plans"), studentId: idIn(page.url(), "students") };
}

/** From a group's own page; the session goes on while the class screen and the tiles are looked at. */
async function startSession(page: Page, own: string): Promise<string> {
  await visit(page, own);
  await button(page, "Start a session").click();
  await button(page, "Start the session").click();
  await page.waitForURL(/\/session\//);
  return idIn(page.url(), "session");
}

async function walk(page: Page, ids: Readonly<Record<string, string>>, left: readonly string[]) {
  const found: string[] = [];
  for (const address of addresses.filter((each) => !left.includes(each))) {
    const said = await saidOfPoints(page, fill(address, ids));
    found.push(...said.map((line) => `${address}: ${line}`));
  }
  return found;
}

async function switchOn(page: Page, label: string, on: boolean): Promise<void> {
  await visit(page, "/settings");
  const toggle = page.getByRole("switch", { name: label });
  await toggle.waitFor();
  if ((await toggle.isChecked()) !== on) await page.getByText(label, { exact: true }).click();
  await expect.poll(() => toggle.isChecked()).toBe(on);
}

describe("Where nothing is earned", () => {
  it("no screen and no sheet of the group speaks of points", async () => {
    const page = await app.open("--speed", "20");
    await makeGroup(page, "Table two", ["Fern", "Robin"]);
    const own = page.url();
    const ids = await idsOf(page);
    await page.getByLabel("What else it earns").fill("I choose the game");
    await page.getByLabel("Who checks it").fill("Ms Reed");
    await button(page, "Write it down").click();
    await button(page, "Both have signed").click();
    const sessionId = await startSession(page, own);
    expect(await walk(page, { ...ids, sessionId }, [...saysSo, ...switches])).toEqual([]);
  });

  it("nor does any of a class whose school switched points off", async () => {
    const page = await app.open("--sample");
    await switchOn(page, "Points can be used", false);
    await switchOn(page, "Use seats", true);
    await link(page, "Groups").first().click();
    await page.locator("main a[href^='/groups/']").first().click();
    await page.locator("a[href*='/plans/']").first().waitFor();
    const own = page.url();
    const ids = await idsOf(page);
    const sessionId = await startSession(page, own);
    expect(await walk(page, { ...ids, sessionId }, [...saysSo, "/settings"])).toEqual([]);
  });
});
