import type { Page } from "playwright";
import { afterEach, describe, expect, it } from "vitest";
import { systemClock } from "../../electron/services/base/clock.ts";
import { noRules } from "../../shared/plan/earning.ts";
import { makeCertificates } from "../faults/seats/certificates.ts";
import { openRoom, type Room, type RoomOptions } from "../faults/seats/room.ts";
import { openBrowser } from "./support/launch.ts";
import { devices } from "./support/seats.ts";
import { button } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const device = devices();
let room: Room | null = null;
afterEach(async () => {
  await room?.close();
  room = null;
});

/** A class with seats open; a cue comes every six seconds. */
async function openFor(options: Partial<RoomOptions> = {}): Promise<Room> {
  room = await openRoom({ clock: systemClock(10), students: ["Fern", "Robin", "Ash"], ...options });
  return room;
}

const pageOf = ({ port }: Room) => `http://127.0.0.1:${port}/`;

async function joins(here: Room, seat: Page, number: number, ready: RegExp | string = "Ready") {
  await seat.goto(`${pageOf(here)}#${here.codeOf(number)}`);
  await button(seat, ready).click();
  await seat.locator(".lead").waitFor();
}

const places = (seat: Page): Promise<string> =>
  seat
    .locator(".answer, .small button, .points button")
    .evaluateAll((all) =>
      all.map((each) => Object.values(each.getBoundingClientRect().toJSON()).join()).join("\n"),
    );

const sizes = [
  { width: 320, height: 568 },
  { width: 360, height: 740 },
  { width: 1024, height: 768 },
] as const;

describe("The adult's phone", () => {
  const plan = {
    earning: { kind: "own", rules: { ...noRules, mark: 1 }, takes: true },
  } as const;

  it("shows places as the room is, a name only while it is held, and moves no button", async () => {
    const folder = temporaryFolder();
    const { good } = makeCertificates(folder.path);
    const students = Array.from({ length: 11 }, (_, at) => `Leaf ${at + 1}`);
    const here = await openFor({ students, plan, certificateFile: good });
    const { handlers, context, groupId } = here;
    await handlers.app.saveSettings(
      { pocketNames: true, seatsInRow: { [groupId]: 8 }, language: "en" },
      context,
    );
    await here.start();
    const browser = await openBrowser();
    const how = { ignoreHTTPSErrors: true, viewport: { width: 320, height: 568 } };
    const phone = await (await browser.newContext(how)).newPage();
    await phone.goto(`https://127.0.0.1:${here.port}/#${(await here.state()).pocketCode}`);
    const first = phone.getByRole("button", { name: "Hold for the name: row 1, place 1" });
    expect(await first.textContent()).toBe("Row 1, place 1");
    await first.hover();
    await phone.mouse.down();
    expect(await first.textContent()).toBe("Leaf 1");
    await phone.mouse.up();
    expect(await first.textContent()).toBe("Row 1, place 1");
    await first.press("Enter", { delay: 50 });
    expect(await first.textContent()).toBe("Row 1, place 1");

    const boxes = () =>
      phone
        .locator("button")
        .evaluateAll((all) =>
          all.map((each) => Object.values(each.getBoundingClientRect().toJSON()).join()),
        );
    const before = await boxes();
    const take = phone.getByRole("button", { name: "Hold to take a point: row 1, place 1" });
    await take.hover();
    await phone.mouse.down();
    await phone.getByText("Row 1, place 1: There are no points to take.").waitFor();
    await phone.mouse.up();
    expect(await boxes()).toEqual(before);

    await button(phone, "Another place").first().click();
    await phone.getByText("A name shows only while its place is held down.").waitFor();
    // A change of the room, or a line that was lost, leaves the choice under the thumb where it is.
    await handlers.app.saveSettings({ seatsInRow: { [groupId]: 7 } }, context);
    await phone.getByRole("button", { name: "Row 2, place 4", exact: true }).waitFor();
    await handlers.app.saveSettings({ seatsInRow: { [groupId]: 8 } }, context);
    const top = async (place: string) =>
      (await phone.getByRole("button", { name: place, exact: true }).boundingBox())?.y;
    expect(await top("Row 1, place 8")).toBe(await top("Row 1, place 1"));
    expect(await top("Row 2, place 3")).toBeGreaterThan((await top("Row 1, place 1")) ?? 0);
    await phone.getByRole("button", { name: "Row 2, place 3", exact: true }).click();
    await button(phone, "Give a point: row 2, place 3").click();
    await phone.getByText("Row 2, place 3: Given.").waitFor();
    const { purses } = await handlers.points.state({ groupId }, context);
    expect(purses.map(({ balance }) => balance)).toEqual([...Array(10).fill(0), 1]);
    const wide = await phone.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBeLessThanOrEqual(320);
    await browser.close();
    folder.remove();
  });
});

describe("A seat's page", () => {
  it("fits phones and tablets in both languages, and nothing that can be pressed moves", async () => {
    const earning = { kind: "own", rules: { ...noRules, mark: 1 } } as const;
    const students = Array.from({ length: 12 }, (_, at) => `Leaf ${at + 1}`);
    const here = await openFor({ students, plan: { earning } });
    const { seats } = await here.state();
    const dresses = (["en", "es"] as const).flatMap((language) =>
      (["words", "pictures"] as const).map((look) => ({ language, look })),
    );
    const all = sizes.flatMap((size) => dresses.map((dress) => ({ size, dress })));
    const pages = await Promise.all(
      all.map(async ({ size, dress }, at) => {
        await here.handlers.seats.dress({ seatId: seats[at]?.id ?? "", ...dress }, here.context);
        const seat = await device(size);
        await joins(here, seat, at + 1, /^(Ready|Ya está)$/);
        return { seat, size, name: `${size.width} ${dress.language} ${dress.look}` };
      }),
    );
    const { id: sessionId } = await here.start();
    await Promise.all(pages.map(({ seat }) => seat.locator(".is-running").waitFor()));
    const before = await Promise.all(pages.map(({ seat }) => places(seat)));
    const sameAs = async (when: string) => {
      for (const [at, { seat, size, name }] of pages.entries()) {
        expect(await places(seat), `${name} ${when}`).toBe(before[at]);
        const [wide, high] = await seat.evaluate(() => [
          document.documentElement.scrollWidth,
          document.documentElement.scrollHeight,
        ]);
        expect(wide, `${name} ${when}`).toBeLessThanOrEqual(size.width);
        expect(high, `${name} ${when}`).toBeLessThanOrEqual(size.height);
      }
    };
    await Promise.all(pages.map(({ seat }) => seat.locator(".is-asking").waitFor()));
    await sameAs("at a cue");
    await here.handlers.sessions.pause({ sessionId }, here.context);
    await Promise.all(pages.map(({ seat }) => seat.locator(".is-paused").waitFor()));
    await sameAs("in a pause");
    await here.handlers.sessions.end({ sessionId }, here.context);
    await Promise.all(pages.map(({ seat }) => seat.locator(".is-ended").waitFor()));
    await sameAs("at the end");
  });

  it("calls nothing recorded that is not, notices a network that went without a word, and hands in what waited", async () => {
    const here = await openFor();
    const [one, two] = [await device(), await device()];
    let isCut = false;
    for (const seat of [one, two]) {
      // A network that is gone: what is said on it arrives nowhere, and no line is closed.
      await seat.routeWebSocket(/\/seat$/, (line) => {
        const server = line.connectToServer();
        line.onMessage((said) => (isCut ? undefined : server.send(said)));
        server.onMessage((said) => (isCut ? undefined : line.send(said)));
      });
    }
    await joins(here, one, 1);
    await joins(here, two, 2);
    const { id: sessionId } = await here.start();
    await Promise.all([one, two].map((seat) => seat.locator(".is-asking").waitFor()));
    await one.waitForTimeout(680);
    isCut = true;
    await button(one, "Yes, I was working").click();
    await button(two, "I was away").click();
    for (const seat of [one, two]) {
      expect(await seat.locator(".said").textContent()).not.toMatch(/Recorded|Away/);
      await seat.getByText("Kept here until the class").waitFor();
    }
    isCut = false;
    await one.getByText("Recorded", { exact: false }).waitFor();
    await two.getByText("Away", { exact: true }).waitFor();
    // Cut off for longer, and loaded again meanwhile: the page finds out, and says so.
    isCut = true;
    await one.getByText("The class’s computer cannot be reached").waitFor({ timeout: 20_000 });
    isCut = false;
    await one.locator(".is-asking").waitFor();
    await here.handlers.sessions.end({ sessionId }, here.context);
    await one.locator(".is-ended").waitFor();
    const log = await here.logOf(sessionId);
    room = null;
    const [fern, robin] = here.students.map(({ id }) => id);
    expect(log.filter(({ kind }) => kind === "mark")).toMatchObject([
      { studentId: fern, value: "on", way: "seat" },
    ]);
    expect(log.filter(({ kind }) => kind === "said-away")).toMatchObject([
      { studentId: robin, away: true },
    ]);
  });

  it("asks on after a reload, and in a new tab after a child closed the old one, until it is answered", async () => {
    const here = await openFor({ clock: systemClock(5) });
    const seat = await device();
    await joins(here, seat, 1);
    const { id: sessionId } = await here.start();
    await seat.locator(".is-asking").waitFor();
    await seat.reload();
    await seat.locator(".is-asking").waitFor({ timeout: 4_000 });
    const other = await seat.context().newPage();
    await seat.close();
    await joins(here, other, 1);
    await other.locator(".is-asking").waitFor({ timeout: 4_000 });
    await other.waitForTimeout(680);
    await button(other, "Yes, I was working").click();
    await other.getByText("Recorded").waitFor();
    await other.reload();
    await other.getByText("Recorded").waitFor();
    await here.handlers.sessions.end({ sessionId }, here.context);
    await other.locator(".is-ended").waitFor();
    const log = await here.logOf(sessionId);
    room = null;
    expect(log.filter(({ kind }) => kind === "mark")).toMatchObject([{ cue: 1, value: "on" }]);
  });

  it("lightens the band at most once a second, whatever a child presses, and so at joining", async () => {
    const here = await openFor();
    const seat = await device();
    await seat.goto(`${pageOf(here)}#${here.codeOf(1)}`);
    await button(seat, "Ready").waitFor();
    await seat.evaluate(() => {
      const changes: { at: number; isLit: boolean }[] = [];
      const look = () => {
        const isLit = document.querySelector(".band-on") !== null;
        if (isLit === (changes.at(-1)?.isLit ?? false)) return;
        changes.push({ at: performance.now(), isLit });
      };
      const how = { subtree: true, attributes: true, attributeFilter: ["class"] };
      new MutationObserver(look).observe(document.body, how);
      Object.assign(window, { bandChanges: changes });
    });
    const pressFor = (ms: number, name: string) =>
      seat.evaluate(
        async ([last, buttons]) => {
          const until = performance.now() + last;
          while (performance.now() < until) {
            for (const each of document.querySelectorAll<HTMLElement>(buttons)) each.click();
            await new Promise((resolve) => setTimeout(resolve, 40));
          }
        },
        [ms, name] as const,
      );
    await pressFor(4_000, ".plain");
    await button(seat, "Ready").click();
    await here.start();
    await seat.locator(".is-asking").waitFor();
    await pressFor(5_000, ".answer, .quiet");
    const changes = await seat.evaluate<{ at: number }[]>("window.bandChanges");
    const gaps = changes.slice(1).map(({ at }, before) => at - (changes[before]?.at ?? 0));
    // Undo is offered again and again: without a rest the band would follow every 0.6 seconds.
    expect(gaps.length).toBeGreaterThan(3);
    // A second apart; the observer hears of a change only when the page has a moment.
    expect(Math.min(...gaps)).toBeGreaterThan(900);
  });

  it("says anew by what it can give a cue when that changes, also after it was loaded again", async () => {
    const here = await openFor();
    const seat = await device();
    await seat.addInitScript(() => {
      const Made = window.AudioContext;
      window.AudioContext = class extends Made {
        constructor() {
          super();
          Object.assign(window, { madeContext: this });
        }
      };
    });
    const carriers = async () => (await here.state()).seats[0]?.carriers.join();
    await seat.goto(`${pageOf(here)}#${here.codeOf(1)}`);
    const tick = seat.locator(".try", { hasText: "earphone" });
    await tick.getByRole("button", { name: "Hear it" }).click();
    await tick.getByRole("button", { name: "Yes" }).click();
    await button(seat, "Ready").click();
    await expect.poll(carriers).toBe("sign,tick");
    // As the lock of a phone or a call does.
    await seat.evaluate("window.madeContext.suspend()");
    await expect.poll(carriers).toBe("sign");
    await seat.locator(".lead").click();
    await expect.poll(carriers).toBe("sign,tick");
    await seat.reload();
    await seat.locator(".lead").waitFor();
    await expect.poll(carriers).toBe("sign");
    await seat.locator(".lead").click();
    await expect.poll(carriers).toBe("sign,tick");
  });

  it("keeps the screen on while a session runs, where the browser can, and lets it go after", async () => {
    const here = await openFor();
    const seat = await device();
    await seat.addInitScript(() => {
      const said: string[] = [];
      const lock = {
        release: () => {
          said.push("released");
          return Promise.resolve();
        },
      };
      const request = (kind: string) => {
        said.push(kind);
        return Promise.resolve(lock);
      };
      Object.defineProperty(navigator, "wakeLock", { value: { request } });
      Object.defineProperty(window, "saidOfScreen", { value: said });
    });
    const said = () => seat.evaluate("window.saidOfScreen");
    await joins(here, seat, 1);
    expect(await said()).toEqual([]);
    const { id: sessionId } = await here.start();
    await seat.locator(".is-running").waitFor();
    expect(await said()).toEqual(["screen"]);
    await here.handlers.sessions.end({ sessionId }, here.context);
    await seat.locator(".is-ended").waitFor();
    expect(await said()).toEqual(["screen", "released"]);
  });

  it("keeps its line when a child presses everything two hundred times", async () => {
    const here = await openFor();
    const seat = await device();
    let lines = 0;
    seat.on("websocket", () => {
      lines += 1;
    });
    await joins(here, seat, 1);
    const { id: sessionId } = await here.start();
    for (let cue = 0; cue < 2; cue += 1) {
      await seat.locator(".is-asking").waitFor();
      await seat.evaluate(() => {
        for (let times = 0; times < 200; times += 1) {
          for (const each of document.querySelectorAll("button")) each.click();
        }
      });
      for (let times = 0; times < 200; times += 1) {
        await seat.touchscreen.tap(20 + ((times * 37) % 280), 20 + ((times * 53) % 520));
      }
    }
    await here.handlers.sessions.end({ sessionId }, here.context);
    await seat.locator(".is-ended").waitFor();
    expect(lines).toBe(1);
  });

  it("says many answers that waited a few at a time, so that nobody hangs up on it", async () => {
    const here = await openFor();
    const seat = await device();
    await joins(here, seat, 1);
    await here.start();
    await seat.locator(".is-asking").waitFor();
    await seat.waitForTimeout(680);
    await seat.context().setOffline(true);
    await button(seat, "Yes, I was working").click();
    const waiting = () =>
      seat.evaluate(() => {
        const key = Object.keys(localStorage).find((each) => each.includes("waiting"));
        return key === undefined
          ? 0
          : (JSON.parse(localStorage.getItem(key) ?? "[]").length as number);
      });
    // As after two lessons without a network, of which the class's computer wants nothing any more.
    await seat.evaluate(() => {
      const key = Object.keys(localStorage).find((each) => each.includes("waiting")) ?? "";
      const marks = JSON.parse(localStorage.getItem(key) ?? "[]");
      for (let cue = 1; cue <= 24; cue += 1) marks.push({ session: "another", cue, value: "on" });
      localStorage.setItem(key, JSON.stringify(marks));
    });
    expect(await waiting()).toBe(25);
    await seat.context().setOffline(false);
    let lines = 0;
    seat.on("websocket", () => {
      lines += 1;
    });
    await seat.reload();
    await expect.poll(waiting, { timeout: 40_000 }).toBe(0);
    expect(lines).toBe(1);
  });
});
