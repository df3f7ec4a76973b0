import type { Locator, Page } from "playwright";
import { describe, expect, it } from "vitest";
import { delayCalls } from "./support/delay-calls.ts";
import { oneApp } from "./support/one-app.ts";
import { paced, paceOf } from "./support/pace.ts";
import { marksLogged, type SilentClass, silentClass } from "./support/silent-class.ts";
import { showTiles } from "./support/steps.ts";

const app = oneApp();

/** Session seconds in a real one: a cue every ten of them, of which five are "in time". */
const speed = 4;
const four = ["Ash", "Birch", "Cedar", "Dill"] as const;
/** After a change a tile takes nothing for 600 ms; here a little longer, for a slow machine. */
const settleMs = 800;

const button = (page: Page, name: string) => page.getByRole("button", { name, exact: true });
const tileOf = (page: Page, name: string) => page.getByRole("group", { name, exact: true });

/** Starts the class's session and gives the teacher's page and the tiles in a page of their own. */
async function openTiles(size = { width: 1366, height: 768 }): Promise<[Page, Page]> {
  const page = await app.open(...paced(speed));
  await button(page, "Start a session with Room 12").click();
  await button(page, "Start the session").click();
  await page.waitForURL(/\/session\//);
  const tiles = await app.another("/tiles");
  await tiles.setViewportSize(size);
  await tiles.locator(".tile").first().waitFor();
  return [page, tiles];
}

async function untilAsked(tiles: Page) {
  await tiles.locator(".tile-asked").first().waitFor({ timeout: 75_000 });
  await tiles.waitForTimeout(settleMs);
}

async function end(page: Page) {
  await button(page, "End").click();
  await button(page, "End it").click();
  await page.getByRole("heading", { name: "The session is over" }).waitFor();
}

async function endSession(page: Page, ofClass: SilentClass) {
  await end(page);
  return closeApp(ofClass);
}

async function closeApp(ofClass: SilentClass) {
  await app.close();
  return marksLogged(app.folder(), ofClass);
}

async function boxOf(locator: Locator) {
  const box = await locator.boundingBox();
  if (box === null) throw new Error("There is nothing to measure.");
  return box;
}

it("Students record at one screen: away and back, late, absent, by picture, in the rows of the room", async () => {
  const ofClass = silentClass(app.folder(), four, { seatsInRow: 2 });
  const [page, tiles] = await openTiles();

  // Two seats in a row.
  const tops = await Promise.all(four.map(async (name) => (await boxOf(tileOf(tiles, name))).y));
  expect(tops[0]).toBe(tops[1]);
  expect(tops[2]).toBe(tops[3]);
  expect(tops[2] ?? 0).toBeGreaterThan(tops[0] ?? 0);

  await untilAsked(tiles);
  const asked = Date.now();

  // Away is no mark: it shows, can be taken back, and lasts until the next cue.
  await button(tiles, "Ash: I was away").click();
  await tiles.getByText("Away", { exact: true }).waitFor();
  await tiles.waitForTimeout(settleMs);
  await button(tiles, "Ash: undo").click();
  await tiles.locator(".tile-away").waitFor({ state: "detached" });
  await tiles.waitForTimeout(settleMs);
  await button(tiles, "Ash: I was away").click();
  await button(tiles, "Birch: yes, I was working").click();
  await tiles.getByText("Recorded", { exact: true }).waitFor();

  // Without names for the eye; whoever hears the screen still knows whose tile it is. The adult chooses it.
  expect(await tiles.getByRole("switch").count()).toBe(0);
  await page.getByText("Pictures only").click();
  await expect
    .poll(async () => (await boxOf(tileOf(tiles, "Cedar").locator(".tile-name"))).width)
    .toBeLessThanOrEqual(1);

  // A mark later than 20 seconds of session time, before the next cue, is kept as late.
  await tiles.waitForTimeout(Math.max(0, asked + 22_000 / paceOf(speed) - Date.now()));
  await button(tiles, "Cedar: no, I was not working").click();
  await button(tiles, "Cedar: undo").waitFor();

  // The next cue asks everybody anew.
  await expect.poll(() => tiles.locator(".tile-recorded").count(), { timeout: 60_000 }).toBe(0);
  await tiles.waitForTimeout(settleMs);
  await button(tiles, "Ash: yes, I was working").click();
  await button(tiles, "Ash: undo").waitFor();

  expect(await endSession(page, ofClass)).toEqual([
    ["on", "Birch", 1, "in time"],
    ["off", "Cedar", 1, "late"],
    ["on", "Ash", 2, "in time"],
  ]);
});

it("An answer that is quicker than the log's word of its cue is kept for this cue, and for none before", async () => {
  const ofClass = silentClass(app.folder(), four);
  const page = await app.open(...paced(speed));
  await button(page, "Start a session with Room 12").waitFor();
  // The page's word that a cue was shown comes late to the log.
  await page.addInitScript(delayCalls, { word: "cueDelivered", ms: 2_000 });
  await page.reload();
  await button(page, "Start a session with Room 12").click();
  await button(page, "Start the session").click();
  await page.waitForURL(/\/session\//);

  await showTiles(page);
  await untilAsked(page);
  await button(page, "Ash: yes, I was working").click();
  await button(page, "Ash: undo").waitFor();
  // Birch has not answered, and presses in the moment of the next cue.
  await expect.poll(() => page.locator(".tile-recorded").count(), { timeout: 30_000 }).toBe(0);
  await page.waitForTimeout(settleMs);
  await button(page, "Birch: no, I was not working").click();
  await button(page, "Birch: undo").waitFor();
  expect(await page.getByText("Not recorded").count()).toBe(0);

  expect(await endSession(page, ofClass)).toEqual([
    ["on", "Ash", 1, "in time"],
    ["off", "Birch", 2, "in time"],
  ]);
});

it("A pause leaves the tiles where they are: what was said stands, and it is said once", async () => {
  const ofClass = silentClass(app.folder(), four);
  const [page, tiles] = await openTiles();
  await untilAsked(tiles);
  await button(tiles, "Ash: I was away").click();
  await tileOf(tiles, "Ash").getByText("Away", { exact: true }).waitFor();
  const before = await boxOf(tileOf(tiles, "Dill"));
  const said = await tiles.evaluateHandle(() => {
    const heard: string[] = [];
    const region = document.querySelector(".cue-words [aria-live]");
    if (region === null) throw new Error("Nothing is read out.");
    new MutationObserver(() => heard.push(region.textContent ?? "")).observe(region, {
      subtree: true,
      childList: true,
      characterData: true,
    });
    return heard;
  });
  await button(page, "Pause").click();
  await tiles.getByText("A short break").waitFor();
  expect(await button(tiles, "Birch: yes, I was working").isDisabled()).toBe(true);
  expect(await boxOf(tileOf(tiles, "Dill"))).toEqual(before);
  await tiles.waitForTimeout(settleMs);
  expect((await said.jsonValue()).filter((each) => each === "A short break")).toHaveLength(1);
  await button(page, "Resume").click();
  await tiles.locator(".tile-asked").first().waitFor();
  expect(await tileOf(tiles, "Ash").textContent()).toContain("Away");
  await tiles.waitForTimeout(settleMs);
  await button(tiles, "Birch: yes, I was working").click();
  await button(tiles, "Birch: undo").waitFor();

  // It is written, so that a page loaded anew has it, and its box on the card is no empty one.
  await tiles.reload();
  await tileOf(tiles, "Ash").getByText("Away", { exact: true }).waitFor();
  await end(page);
  await page.goto(`${page.url()}/cards`);
  const grid = page.getByRole("grid");
  await grid.getByLabel("Ash, box 1: was away").waitFor();
  await grid.getByLabel("Birch, box 1: working").waitFor();
  await grid.getByLabel("Cedar, box 1: nothing recorded").waitFor();
  expect(await closeApp(ofClass)).toEqual([["on", "Birch", 1, expect.anything()]]);
});

describe("No mark that nobody chose", () => {
  /** Shares of a control's width and height at which it is pressed. */
  const places = [
    [0.5, 0.5],
    [0.08, 0.2],
    [0.92, 0.2],
    [0.08, 0.8],
    [0.92, 0.8],
  ] as const;
  const names = places.flatMap((_, index) => [
    `Yes ${index}`,
    `No ${index}`,
    `Away ${index}`,
    `Undo ${index}`,
  ]);

  /** Presses twice at one place of a control, a bouncing finger's time apart. */
  async function pressTwice(tiles: Page, control: Locator, [x, y]: readonly [number, number]) {
    const box = await boxOf(control);
    const at = [box.x + box.width * x, box.y + box.height * y] as const;
    await tiles.mouse.click(...at);
    await tiles.waitForTimeout(250);
    await tiles.mouse.click(...at);
  }

  it("comes of a double tap at any of five places of yes, no, away and undo", async () => {
    // So many presses take a longer gap than the others do.
    const ofClass = silentClass(app.folder(), names, { plan: { meanSeconds: 60 } });
    const [page, tiles] = await openTiles();
    await untilAsked(tiles);
    const controls = [
      ["Yes", "yes, I was working"],
      ["No", "no, I was not working"],
      ["Away", "I was away"],
    ] as const;
    for (const [index, place] of places.entries()) {
      for (const [who, control] of controls) {
        await pressTwice(tiles, button(tiles, `${who} ${index}: ${control}`), place);
      }
      await button(tiles, `Undo ${index}: yes, I was working`).click();
    }
    await tiles.waitForTimeout(settleMs);
    for (const [index, place] of places.entries()) {
      await pressTwice(tiles, button(tiles, `Undo ${index}: undo`), place);
    }
    await tiles.waitForTimeout(settleMs);
    for (const index of places.keys()) {
      await expect.poll(() => tileOf(tiles, `Away ${index}`).textContent()).toContain("Away");
    }

    const said = await endSession(page, ofClass);
    for (const index of places.keys()) {
      const of = (name: string) =>
        said.flatMap((each) => (Array.isArray(each) && each[1] === name ? [each[0]] : []));
      expect([index, of(`Yes ${index}`)]).toEqual([index, ["on"]]);
      expect([index, of(`No ${index}`)]).toEqual([index, ["off"]]);
      expect([index, of(`Away ${index}`)]).toEqual([index, []]);
      expect([index, of(`Undo ${index}`)]).toEqual([index, ["on", "none"]]);
    }
  });

  it("comes of a key pressed twice, nor of one pressed on what a cue has just changed", async () => {
    const ofClass = silentClass(app.folder(), four);
    const [page, tiles] = await openTiles();
    await untilAsked(tiles);
    const twice = async (control: Locator, key: string) => {
      await control.focus();
      await tiles.keyboard.press(key);
      await tiles.waitForTimeout(250);
      await tiles.keyboard.press(key);
      await tiles.waitForTimeout(settleMs);
      // Once more when the tile has settled: its focus answers nothing.
      await tiles.keyboard.press(key);
    };
    await twice(button(tiles, "Ash: yes, I was working"), "Enter");
    await twice(button(tiles, "Birch: no, I was not working"), "Space");
    await twice(button(tiles, "Cedar: I was away"), "Enter");
    await button(tiles, "Dill: yes, I was working").click();
    await tiles.waitForTimeout(settleMs);
    await button(tiles, "Dill: undo").focus();
    await tiles.keyboard.press("Enter");
    await tiles.keyboard.press("Enter");
    await tiles.waitForTimeout(settleMs);

    // A finger that came down before the cue and is lifted after it meant what stood there before.
    await button(tiles, "Dill: yes, I was working").click();
    await tiles.locator(".tile-recorded").first().waitFor();
    const dill = await boxOf(
      button(tiles, "Dill: no, I was not working").or(tileOf(tiles, "Dill")).first(),
    );
    await tiles.mouse.move(dill.x + dill.width / 2, dill.y + dill.height / 2);
    await tiles.mouse.down();
    await expect.poll(() => tiles.locator(".tile-recorded").count(), { timeout: 60_000 }).toBe(0);
    await tiles.waitForTimeout(settleMs);
    await tiles.mouse.up();
    await tiles.waitForTimeout(300);

    expect(await endSession(page, ofClass)).toEqual([
      ["on", "Ash", 1, "in time"],
      ["off", "Birch", 1, "in time"],
      ["on", "Dill", 1, expect.anything()],
      ["none", "Dill", 1, expect.anything()],
      ["on", "Dill", 1, expect.anything()],
    ]);
  });

  it("tells yes from no by form, apart by at least 8 px", async () => {
    silentClass(app.folder(), four);
    const [, tiles] = await openTiles();
    const yes = button(tiles, "Ash: yes, I was working");
    const no = button(tiles, "Ash: no, I was not working");
    const [left, right] = [await boxOf(yes), await boxOf(no)];
    expect(right.x - (left.x + left.width)).toBeGreaterThanOrEqual(8);
    expect(await yes.locator("svg circle").count()).toBe(1);
    expect(await no.locator("svg rect").count()).toBe(1);
  });
});

describe("The size of the tiles", () => {
  const measured = (tiles: Page) =>
    tiles.evaluate(() => {
      const boxes = (selector: string) =>
        [...document.querySelectorAll(selector)].map((each) => each.getBoundingClientRect());
      const least = (all: DOMRect[], side: "width" | "height") =>
        Math.min(...all.map((box) => box[side]));
      const [answers, small] = [boxes(".tile-answer"), boxes(".tile-small")];
      const apart = (one: DOMRect, other: DOMRect) =>
        Math.max(
          one.left - other.right,
          other.left - one.right,
          one.top - other.bottom,
          other.top - one.bottom,
        );
      const covered = boxes(".tile").reduce((sum, { width, height }) => sum + width * height, 0);
      const page = document.documentElement;
      return {
        answer: Math.min(least(answers, "width"), least(answers, "height")),
        small: Math.min(least(small, "width"), least(small, "height")),
        apart: Math.min(...small.flatMap((one) => answers.map((other) => apart(one, other)))),
        scrolls: page.scrollHeight > innerHeight || page.scrollWidth > innerWidth,
        cut: [...document.querySelectorAll(".tile")].filter(
          (tile) => tile.scrollHeight > tile.clientHeight || tile.scrollWidth > tile.clientWidth,
        ).length,
        covered: covered / (innerWidth * innerHeight),
      };
    });

  it("lets eight fill a projector", async () => {
    silentClass(
      app.folder(),
      Array.from({ length: 8 }, (_, index) => `Student ${index + 1}`),
    );
    const [, tiles] = await openTiles({ width: 1920, height: 1080 });
    await expect.poll(async () => (await measured(tiles)).covered).toBeGreaterThan(0.85);
    const { answer, small, apart, scrolls, cut } = await measured(tiles);
    expect(answer).toBeGreaterThanOrEqual(200);
    expect(small).toBeGreaterThanOrEqual(24);
    expect(apart).toBeGreaterThanOrEqual(8);
    expect([scrolls, cut]).toEqual([false, 0]);
  });

  it("fits forty on a laptop without scrolling, answers of 64 px and more", async () => {
    silentClass(
      app.folder(),
      Array.from({ length: 40 }, (_, index) => `Student ${index + 1}`),
    );
    const [, tiles] = await openTiles();
    const { answer, small, apart, scrolls, cut } = await measured(tiles);
    expect(answer).toBeGreaterThanOrEqual(64);
    expect(small).toBeGreaterThanOrEqual(24);
    expect(apart).toBeGreaterThanOrEqual(8);
    expect([scrolls, cut]).toEqual([false, 0]);
  });
});

it("A mark leaves the focus on its tile, is said without the answer, and arrow keys go on from there", async () => {
  silentClass(app.folder(), four, { seatsInRow: 2 });
  const [, tiles] = await openTiles();
  await untilAsked(tiles);
  const focused = () =>
    tiles.evaluate(
      () => document.activeElement?.getAttribute("aria-label") ?? document.activeElement?.tagName,
    );
  await tiles.evaluate(() => {
    const heard: string[] = [];
    Object.assign(window, { heard });
    new MutationObserver(() => {
      for (const region of document.querySelectorAll("[role=status], [role=alert], [aria-live]")) {
        const text = region.textContent ?? "";
        if (text !== "" && heard.at(-1) !== text) heard.push(text);
      }
    }).observe(document.body, { subtree: true, childList: true, characterData: true });
  });
  for (const name of ["yes, I was working", "no, I was not working"]) {
    const who = name.startsWith("yes") ? "Ash" : "Birch";
    await button(tiles, `${who}: ${name}`).focus();
    await tiles.keyboard.press("Enter");
    await tileOf(tiles, who).getByText("Recorded").waitFor();
    // It is still a group with the child's name, and has the focus.
    await expect.poll(focused).toBe(who);
    await expect.poll(() => tiles.evaluate("heard.join()")).toContain(`${who}: recorded`);
  }
  expect(await tiles.evaluate("heard.join()")).not.toMatch(/: (yes|no)/);
  await tiles.keyboard.press("ArrowDown");
  expect(await focused()).toMatch(/^Dill: /);
  await button(tiles, "Dill: I was away").focus();
  await tiles.keyboard.press("Enter");
  await tileOf(tiles, "Dill").getByText("Away", { exact: true }).waitFor();
  await expect.poll(focused).toBe("Dill");
  // After ten seconds the undo goes; who stood on it stands on the tile.
  await button(tiles, "Dill: undo").focus();
  await button(tiles, "Dill: undo").waitFor({ state: "hidden", timeout: 15_000 });
  await expect.poll(focused).toBe("Dill");
});

it("Tiles look the same after yes and after no, and the board names nobody", async () => {
  silentClass(app.folder(), four, { seatsInRow: 2 });
  const [, tiles] = await openTiles();
  const board = await app.another("/board");
  await tiles.bringToFront();
  await untilAsked(tiles);
  await button(tiles, "Ash: yes, I was working").click();
  await button(tiles, "Birch: no, I was not working").click();
  await tileOf(tiles, "Ash").getByText("Recorded").waitFor();
  await tileOf(tiles, "Birch").getByText("Recorded").waitFor();
  // All but the child's own name and picture, once what moves has come to rest.
  const looks = (name: string) =>
    tileOf(tiles, name).evaluate((tile) => {
      for (const moving of tile.getAnimations({ subtree: true })) moving.finish();
      return {
        words: tile.textContent?.replace(tile.getAttribute("aria-label") ?? "", ""),
        kinds: [tile, ...tile.querySelectorAll("*:not(svg *)")].map((each) =>
          each.getAttribute("class"),
        ),
        color: getComputedStyle(tile).backgroundColor,
        border: getComputedStyle(tile).borderColor,
      };
    });
  expect(await looks("Ash")).toEqual(await looks("Birch"));
  await board.bringToFront();
  const shown = (await board.locator("main").textContent()) ?? "";
  expect(shown).toMatch(/\w/);
  expect(four.filter((name) => shown.includes(name))).toEqual([]);
  expect(shown).not.toContain("%");
});

it("An absent student is an empty place without words, and one student's tile stands alone in a window", async () => {
  const { nameOf } = silentClass(app.folder(), four, { seatsInRow: 2 });
  const [page, tiles] = await openTiles();
  const before = await boxOf(tileOf(tiles, "Dill"));
  const sessionId = new URL(page.url()).pathname.split("/").at(-1) ?? "";
  const cedar = [...nameOf].find(([, name]) => name === "Cedar")?.[0] ?? "";

  await button(page, "One student’s tile in its own window").click();
  const opening = app.context().waitForEvent("page");
  await button(page, "Cedar").click();
  const alone = await opening;
  await tileOf(alone, "Cedar").waitFor();
  expect(alone.url()).toContain(cedar);
  expect(await alone.locator(".tile").count()).toBe(1);
  expect((await boxOf(tileOf(alone, "Cedar"))).width).toBeGreaterThan(300);

  await setAbsent(page, sessionId, "Cedar");
  await tileOf(tiles, "Cedar").waitFor({ state: "detached" });
  expect(await boxOf(tileOf(tiles, "Dill"))).toEqual(before);
  expect(await tiles.locator(".tile-place").nth(2).textContent()).toBe("");
});

/** The adult notes that a student is not here, where the adult does so. */
async function setAbsent(page: Page, sessionId: string, name: string) {
  await page.goto(new URL(`/session/${sessionId}/cards`, page.url()).href);
  await button(page, `Absent: ${name}`).click();
}
