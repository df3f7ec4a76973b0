import type { Page } from "playwright";
import { expect, it } from "vitest";
import { openStore } from "../../electron/store/store.ts";
import { wrongCodesAMinute, wrongCodesAnHour } from "../../shared/seats/limits.ts";
import { knock } from "../faults/seats/room.ts";
import { oneApp } from "./support/one-app.ts";
import { devices, join, openSeats, startPrivately } from "./support/seats.ts";
import { silentClass } from "./support/silent-class.ts";
import { answerOnTile, button, link, showTiles } from "./support/steps.ts";

// Nothing that children or the adult may be pressing ever moves: the boxes of all pressable things are
// measured before, during and after a cue, a check, a pause, a message, a problem, lost sound and a seat that sleeps.

const app = oneApp();
const device = devices();
const names = Array.from({ length: 12 }, (_, index) => `Student ${index + 1}`);

/** Remembers where everything pressable stands now; says afterwards what of it has moved. */
async function watchBoxes(page: Page): Promise<(when: string) => Promise<void>> {
  await page.evaluate(() => {
    const places = new Map<Element, string>();
    const pressable = "button, a, label, input, [role=switch], [role=radio]";
    const isSeen = (each: Element) => each.checkVisibility({ visibilityProperty: true });
    const boxOf = (each: Element) => {
      const { x, y, width, height } = each.getBoundingClientRect();
      return [x, y, width, height].map((side) => side.toFixed(1)).join(" ");
    };
    const moved = () => {
      const found: string[] = [];
      for (const each of document.querySelectorAll(pressable)) {
        if (!isSeen(each) || each.closest("[role=dialog]") !== null) continue;
        const before = places.get(each);
        const now = boxOf(each);
        const name = each.getAttribute("aria-label") ?? each.textContent ?? "";
        if (before !== undefined && before !== now) found.push(`${name}: ${before} to ${now}`);
        if (before === undefined) places.set(each, now);
      }
      return found;
    };
    Object.assign(window, { moved });
  });
  return async (when) => {
    // The slowest change of look takes 600 ms; a place must not change at all.
    await page.waitForTimeout(100);
    expect([when, await page.evaluate("moved()")]).toEqual([when, []]);
  };
}

/** The names of what can be pressed and has a message over it. */
const coveredBy = (page: Page, selector: string): Promise<string[]> =>
  page.evaluate((selector) => {
    const message = document.querySelector(selector);
    if (message === null) return ["no message"];
    const { left, right, top, bottom } = message.getBoundingClientRect();
    const seen = [...document.querySelectorAll("button, a, label, input")].filter((each) =>
      each.checkVisibility({ visibilityProperty: true }),
    );
    return seen.flatMap((each) => {
      const box = each.getBoundingClientRect();
      const isUnder = box.left < right && box.right > left && box.top < bottom && box.bottom > top;
      return isUnder && !message.contains(each) ? [each.textContent ?? ""] : [];
    });
  }, selector);

const sizes = [
  { width: 1366, height: 768 },
  { width: 1920, height: 1080 },
];

/** Has the app not ask for the check of the sound, which stands before a first session. */
function knowsTheSound(): void {
  const store = openStore({ folder: app.folder(), now: Date.now });
  store.settings.save({ soundChecked: true });
  store.close();
}

it.each(sizes)(
  "Nothing pressable moves at a cue, a check, a pause or a message, at $width by $height",
  async (size) => {
    silentClass(app.folder(), names, { plan: { checkPace: "every", studentsPerCheck: 2 } });
    const page = await app.open("--speed", "4");
    await page.setViewportSize(size);
    await button(page, "Start a session with Room 12").click();
    await button(page, "Start the session").click();
    await page.waitForURL(/\/session\//);
    const tiles = await app.another("/tiles");
    await tiles.setViewportSize(size);
    await tiles.locator(".tile").first().waitFor();
    await showTiles(page);
    await page.waitForTimeout(500);
    const still = await watchBoxes(page);
    const tilesStill = await watchBoxes(tiles);
    const both = async (when: string) => {
      await still(when);
      await tilesStill(`${when}, on the tiles`);
    };
    await both("before the first cue");

    await page.locator(".tile-asked").first().waitFor({ timeout: 30_000 });
    await both("at a cue with a check");
    await page.waitForTimeout(400);
    await button(page, "Look now").click();
    await both("with the check open");
    await answerOnTile(page, "Student 1", "yes");
    await both("after a mark");
    await page.keyboard.press("1");
    await both("after a check's answer");
    await button(page, "Check someone").click();
    await page.getByText("The class can see this screen").waitFor();
    await both("with a slip open");
    await page.keyboard.press("Escape");

    await button(page, "Pause").click();
    await page.locator(".tile-waiting").first().waitFor();
    await both("paused");
    await page.waitForTimeout(400);
    await button(page, "Resume").click();
    await page.locator(".tile-asked").first().waitFor();
    await both("resumed");

    // The message that the line is lost lies over the page.
    await app.loseHost();
    await page.locator(".frame-lost").waitFor({ timeout: 30_000 });
    await tiles.locator(".frame-lost").waitFor({ timeout: 30_000 });
    await both("with a message");

    await button(page, "Pause").click();
    await page.getByText("That did not work").waitFor({ timeout: 30_000 });
    await both("with a problem shown");
    expect(await coveredBy(page, ".live-problem [role=alert]")).toEqual([]);
  },
  120_000,
);

/** Has a page's sound stop when the test says so, as when the system takes the loudspeaker away. */
function soundThatStops() {
  let isStopped = false;
  const contexts = new Set<AudioContext>();
  const { resume } = AudioContext.prototype;
  const real = Object.getOwnPropertyDescriptor(BaseAudioContext.prototype, "state");
  AudioContext.prototype.resume = function () {
    return isStopped ? new Promise(() => {}) : resume.call(this);
  };
  Object.defineProperty(BaseAudioContext.prototype, "state", {
    get(this: AudioContext) {
      contexts.add(this);
      return isStopped ? "suspended" : real?.get?.call(this);
    },
  });
  const stopSound = (stops: boolean) => {
    isStopped = stops;
    for (const context of contexts) context.dispatchEvent(new Event("statechange"));
  };
  Object.assign(window, { stopSound });
}

it.each(sizes)(
  "Nothing pressable moves or is covered when the sound is lost in mid-session, at $width by $height",
  async (size) => {
    silentClass(app.folder(), names, { plan: { cueing: "sound", checkPace: "every" } });
    knowsTheSound();
    const page = await app.open("--speed", "4");
    await page.setViewportSize(size);
    await page.addInitScript(soundThatStops);
    await page.reload();
    await button(page, "Start a session with Room 12").click();
    await button(page, "Start the session").click();
    await page.waitForURL(/\/session\//);
    await showTiles(page);
    await page.locator(".tile-asked").first().waitFor({ timeout: 30_000 });
    const still = await watchBoxes(page);
    await still("while cues sound");

    const cues = page.locator(".strip-fact", { hasText: "Cues" }).locator(".strip-value");
    const cuesBefore = await cues.textContent();
    await page.evaluate("stopSound(true)");
    await page.getByText("Sound has stopped").waitFor();
    await still("with the sound lost");
    expect(await coveredBy(page, ".strip [role=alert]")).toEqual([]);
    await expect.poll(() => cues.textContent(), { timeout: 30_000 }).not.toBe(cuesBefore);
    await still("at a cue that could not sound");

    await page.evaluate("stopSound(false)");
    await page.getByText("The last cue could not sound").waitFor();
    await still("with the sound back");
    expect(await coveredBy(page, ".strip [role=alert]")).toEqual([]);

    await link(page, "Settings").click();
    await page.getByText("A session with Room 12 is open.").waitFor();
    const stillThere = await watchBoxes(page);
    await stillThere("on another page");
    await page.evaluate("stopSound(true)");
    await page.getByText("The cues of the running session cannot be heard").waitFor();
    await stillThere("on another page, with the sound lost");
    await page.evaluate("stopSound(false)");
    await page.getByText("A session with Room 12 is open.").waitFor();
    await stillThere("on another page, with the sound back");
  },
  120_000,
);

/** Tries wrong codes from as many addresses of this machine as it takes until nobody can join. */
async function tryWrongCodes(address: string): Promise<void> {
  const port = Number(new URL(address).port);
  const tries = Array.from({ length: wrongCodesAnHour }, async (_, index) => {
    const from = `127.0.2.${1 + Math.floor(index / wrongCodesAMinute)}`;
    const device = await knock(port, { from });
    device.send({ kind: "hello", code: "BBBBBBBB" });
    await device.hears("closed");
  });
  await Promise.all(tries);
}

/** Has a device's page lie behind another, where it says nothing any more. */
function layBehind() {
  Object.defineProperty(document, "visibilityState", { get: () => "hidden" });
  Object.defineProperty(document, "hidden", { get: () => true });
}

it.each(sizes)(
  "Nothing pressable moves when a seat falls asleep and joining pauses, at $width by $height",
  async (size) => {
    silentClass(app.folder(), names, { plan: { recording: "seat" } });
    const page = await app.open("--seats-port", "0");
    await page.setViewportSize(size);
    const { address, codes } = await openSeats(page);
    const seat = await device();
    await join(seat, address, codes.get(1) ?? "");
    await startPrivately(page);
    await page.getByText("1 seat has joined.").waitFor();
    const still = await watchBoxes(page);
    await still("with one seat awake");

    await seat.evaluate(layBehind);
    await page.getByText("Seat 1 is asleep").waitFor({ timeout: 30_000 });
    await still("with a seat asleep");
    await tryWrongCodes(address);
    await page.getByText("Many wrong codes").waitFor();
    await still("with joining paused");
  },
  120_000,
);
