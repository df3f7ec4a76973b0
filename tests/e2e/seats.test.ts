import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { noRules } from "../../shared/plan/earning.ts";
import { axeFindingsInBoth } from "./support/axe.ts";
import { waitFor } from "./support/launch.ts";
import { oneApp } from "./support/one-app.ts";
import {
  answer,
  devices,
  join,
  openSeats,
  phone,
  startPrivately,
  tablet,
} from "./support/seats.ts";
import {
  deliveredLogged,
  marksLogged,
  type SilentClass,
  silentClass,
} from "./support/silent-class.ts";
import { appearsMs, button } from "./support/steps.ts";

const app = oneApp();
const device = devices();

/** The code for the adult's phone: hidden until a press and after another, and nothing moves by it. */
async function showPocketCode(page: Page): Promise<string> {
  const code = page.locator(".seats-pocket-code");
  const press = button(page, "Show the code for your phone");
  const boxes = () =>
    page
      .locator("main *")
      .evaluateAll((all) =>
        all.map((each) => Object.values(each.getBoundingClientRect().toJSON()).slice(0, 4).join()),
      );
  const is = async (look: RegExp) => {
    await code.filter({ hasText: look }).waitFor();
    return (await code.textContent()) ?? "";
  };
  const hidden = /^\s$/;
  await is(hidden);
  // The pointer rests on the button from the beginning: its look under it is not what this is about.
  await press.hover();
  const before = await boxes();
  for (let times = 0; times < 2; times += 1) {
    await press.click();
    await is(/^\w{4}-\w{4}$/);
    await press.click();
    await is(hidden);
  }
  await press.click();
  const shown = await is(/^\w{4}-\w{4}$/);
  const after = await boxes();
  // The code alone is as wide as it is.
  expect(after.filter((box, at) => box !== before[at]).length).toBeLessThanOrEqual(1);
  return shown;
}

/** What a stubbed device did, and what it told the class's computer. */
interface Carrying {
  readonly seat: Page;
  /** By what each cue was given, as the device says. */
  readonly told: string[];
  vibrated(): Promise<number>;
  ticked(): Promise<number>;
}

/** A device that can or cannot vibrate, of which pushes and ticks are counted; it stands where carriers are tried. */
async function carryingDevice(seat: Page, canVibrate: boolean, at: string): Promise<Carrying> {
  await seat.addInitScript((can) => {
    const counts = { vibrated: 0, ticked: 0 };
    Object.assign(window, { counts });
    if (can) {
      navigator.vibrate = () => {
        counts.vibrated += 1;
        return true;
      };
    } else Reflect.deleteProperty(Navigator.prototype, "vibrate");
    const start = OscillatorNode.prototype.start;
    OscillatorNode.prototype.start = function (when) {
      counts.ticked += 1;
      start.call(this, when);
    };
  }, canVibrate);
  const told: string[] = [];
  seat.on("websocket", (line) =>
    line.on("framesent", ({ payload }) => {
      const said = JSON.parse(String(payload));
      if (said.kind === "began") told.push(said.by);
    }),
  );
  await seat.goto(at);
  await button(seat, "Ready").waitFor();
  const count = (name: "vibrated" | "ticked") =>
    seat.evaluate((of) => Reflect.get(Reflect.get(window, "counts"), of) as number, name);
  return { seat, told, vibrated: () => count("vibrated"), ticked: () => count("ticked") };
}

/** Tries one carrier and says whether it was noticed. */
async function tries(seat: Page, heading: string, press: string, answer: "Yes" | "No") {
  const part = seat.locator(".try").filter({ has: seat.getByRole("heading", { name: heading }) });
  await part.getByRole("button", { name: press, exact: true }).click();
  await part.getByRole("button", { name: answer, exact: true }).click();
}

describe("Seats", () => {
  let room: SilentClass;

  it("join by slip, show a cue, and hand in answers; the teacher sees who joined", async () => {
    room = silentClass(app.folder(), ["Fern", "Robin"]);
    const page = await app.open("--speed", "10", "--seats-port", "0");
    const { address, codes } = await openSeats(page);
    const [small, large] = [await device(phone), await device(tablet)];
    await join(small, address, codes.get(1) ?? "");
    await join(large, address, codes.get(2) ?? "");
    // A code is in no address bar and in no request.
    expect(new URL(small.url()).hash).toBe("");
    await page.locator(".seats-state-joined").nth(1).waitFor();
    await startPrivately(page);
    await small.getByText("Do your work.").waitFor();
    await Promise.all([
      answer(small, "Yes, I was working"),
      answer(large, "No, I was not working"),
    ]);
    // Nothing on the page goes beyond its edge.
    const wide = await small.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBeLessThanOrEqual(phone.width);
    await button(page, "End").click();
    await page.waitForTimeout(appearsMs);
    await button(page, "End it").click();
    await small.getByText("Done. Thank you.").waitFor();
    await app.close();
    const marks = await waitFor(() => marksLogged(app.folder(), room), "the marks");
    expect(marks).toContainEqual(["on", "Fern", expect.any(Number), "in time"]);
    expect(marks).toContainEqual(["off", "Robin", expect.any(Number), "in time"]);
  });

  it("keep answers while the class's computer is out of reach, over a reload, and speak their language", async () => {
    room = silentClass(app.folder(), ["Fern", "Robin"]);
    const page = await app.open("--speed", "10", "--seats-port", "0");
    const { address, codes } = await openSeats(page);
    await page.getByRole("button", { name: /Language of seat 1/ }).click();
    await page.getByRole("option", { name: "Español" }).click();
    await page.getByRole("button", { name: /What seat 1 shows/ }).click();
    await page.getByRole("option", { name: "Pictures" }).click();
    const small = await device(phone);
    await small.goto(`${address}/#${(codes.get(1) ?? "").replace("-", "")}`);
    await small.getByRole("button", { name: "Ya está", exact: true }).click();
    await small.getByText("Todo tranquilo.").waitFor();
    await startPrivately(page);
    await small.getByRole("button", { name: "Sí, estaba trabajando" }).waitFor({ timeout: 40_000 });
    // The line is lost between the cue and the answer, and the page is loaded again before it is back.
    await small.waitForTimeout(680);
    await small.context().setOffline(true);
    await small.getByRole("button", { name: "Sí, estaba trabajando" }).click();
    await small.context().setOffline(false);
    await small.reload();
    await small.getByText("Registrado").first().waitFor({ timeout: 20_000 });
    await app.close();
    const marks = await waitFor(() => marksLogged(app.folder(), room), "the marks");
    expect(marks.filter((mark) => Array.isArray(mark) && mark[1] === "Fern")).toHaveLength(1);
  });

  it("let a device go, make a slip void, and close; the page says so each time", async () => {
    room = silentClass(app.folder(), ["Fern", "Robin"]);
    const page = await app.open("--speed", "10", "--seats-port", "0");
    const { address, codes } = await openSeats(page);
    const small = await device(phone);
    await join(small, address, codes.get(1) ?? "");
    await page.locator(".seats-state-joined").first().waitFor();
    await button(page, "More for seat 1").click();
    await page.getByRole("menuitem", { name: "Free this device" }).click();
    await small.getByText("This device is free.").waitFor();
    await small.getByLabel("The code on your slip").fill((codes.get(1) ?? "").toLowerCase());
    await small.getByRole("button", { name: "Join", exact: true }).click();
    await small.getByRole("button", { name: "Ready", exact: true }).click();
    await small.getByText("All quiet.").waitFor();
    await button(page, "More for seat 1").click();
    await page.getByRole("menuitem", { name: "Make the slip void" }).click();
    await small.getByText("This device is free.").waitFor();
    await small.getByLabel("The code on your slip").fill(codes.get(1) ?? "");
    await small.getByRole("button", { name: "Join", exact: true }).click();
    await small.getByText("No seat has this code.").waitFor();
    await button(page, "Close seats").click();
    await page.getByText("Seats are closed.").waitFor();
  });

  it("give points from the adult's phone, held for taking, and count them on the desk", async () => {
    const rules = { ...noRules, mark: 1 };
    const plan = { earning: { kind: "own", rules, takes: true } } as const;
    room = silentClass(app.folder(), ["Fern", "Robin"], { plan });
    const page = await app.open("--speed", "10", "--seats-port", "0");
    const { address, codes } = await openSeats(page);
    const pocketCode = await showPocketCode(page);
    const [small, pocket] = [await device(phone), await device(phone)];
    await join(small, address, codes.get(1) ?? "");
    await pocket.goto(address);
    await pocket.getByLabel("The code on your slip").fill(pocketCode);
    await pocket.getByRole("button", { name: "Join", exact: true }).click();
    await pocket.getByText("No session is running.").waitFor();
    // By itself, for this page is often projected while a class joins.
    await page.getByText(pocketCode).waitFor({ state: "hidden", timeout: 25_000 });
    await startPrivately(page);
    const place = "row 1, place 1";
    for (const total of ["1", "2"]) {
      await pocket.getByRole("button", { name: `Give a point: ${place}` }).click();
      await small.locator(".points-number").getByText(total, { exact: true }).waitFor();
    }
    const take = pocket.getByRole("button", { name: `Hold to take a point: ${place}` });
    // A short press takes nothing.
    await take.click();
    await take.hover();
    await pocket.mouse.down();
    await pocket.getByText("Taken.").waitFor();
    await pocket.mouse.up();
    await small.locator(".points-number").getByText("1", { exact: true }).waitFor();
    await take.hover();
    await pocket.mouse.down();
    await pocket.getByText("Praise the next minute of work").waitFor();
    await pocket.mouse.up();
    expect(await pocket.getByText("Fern").count()).toBe(0);
    await small.getByRole("button", { name: "Cover my points" }).click();
    expect(await small.locator(".points-number").textContent()).toBe("");
  });

  it("give a cue by what was tried at joining and noticed, and the teacher sees by what", async () => {
    const plan = {
      law: "exponential",
      cueing: "own",
      meanSeconds: 60,
      shortestGapSeconds: 40,
      lengthSeconds: 240,
      fewestCues: 2,
    } as const;
    room = silentClass(app.folder(), ["Fern", "Robin", "Ash"], { plan });
    const page = await app.open("--speed", "10", "--seats-port", "0");
    const { address, codes } = await openSeats(page);
    const at = (number: number) => `${address}/#${(codes.get(number) ?? "").replace("-", "")}`;
    const felt = await carryingDevice(await device(), true, at(1));
    const unfelt = await carryingDevice(await device(), true, at(2));
    const heard = await carryingDevice(await device(), false, at(3));
    await tries(felt.seat, "Vibration", "Make it vibrate", "Yes");
    await tries(unfelt.seat, "Vibration", "Make it vibrate", "No");
    // Where nothing can vibrate, nothing is asked.
    expect(await heard.seat.getByText("Vibration").count()).toBe(0);
    await tries(heard.seat, "Soft tick in an earphone", "Hear it", "Yes");
    await expect.poll(heard.ticked).toBe(1);
    for (const { seat } of [felt, unfelt, heard]) {
      await button(seat, "Ready").click();
      await seat.getByText("All quiet. Your seat is ready.").waitFor();
    }
    const rows = page.locator(".seats-row .seats-does");
    await expect
      .poll(() => rows.allTextContents())
      .toEqual(["quiet sign, vibration", "quiet sign", "quiet sign, tick"]);
    await startPrivately(page);
    for (const [{ told }, by] of [
      [felt, "touch"],
      [unfelt, "sign"],
      [heard, "tick"],
    ] as const) {
      await expect.poll(() => told[0], { timeout: 60_000 }).toBe(by);
    }
    expect(await felt.vibrated()).toBeGreaterThan(1);
    expect(await unfelt.vibrated()).toBe(1);
    expect(await heard.ticked()).toBeGreaterThan(1);
    await button(page, "End").click();
    await page.waitForTimeout(appearsMs);
    await button(page, "End it").click();
    await heard.seat.getByText(/^Done/).waitFor();
    await app.close();
    // All of them showed the quiet sign; a touch is an adult's, on the desk.
    const { nameOf } = room;
    const logged = deliveredLogged(app.folder()).map(
      ({ by, studentId }) => `${nameOf.get(studentId)} ${by}`,
    );
    expect([...new Set(logged)].toSorted()).toEqual(["Ash sight", "Fern sight", "Robin sight"]);
  });

  it("look right to a reader's rules in each of the page's states, in light and dark", async () => {
    room = silentClass(app.folder(), ["Fern", "Robin"]);
    const page = await app.open("--speed", "10", "--seats-port", "0");
    const { address, codes } = await openSeats(page);
    const small = await device(phone);
    const findings = async (where: Page, what: string) =>
      expect(await axeFindingsInBoth(where), what).toEqual([]);
    await findings(page, "seats");
    await small.goto(address);
    await small.getByLabel("The code on your slip").waitFor();
    await findings(small, "code");
    await small.goto(`${address}/#${(codes.get(1) ?? "").replace("-", "")}`);
    await small.getByRole("button", { name: "Ready", exact: true }).waitFor();
    await findings(small, "try");
    await small.getByRole("button", { name: "Ready", exact: true }).click();
    await startPrivately(page);
    await small.getByRole("button", { name: "Yes, I was working" }).waitFor({ timeout: 40_000 });
    await findings(small, "cue");
    const box = await small.getByRole("button", { name: "Yes, I was working" }).boundingBox();
    expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(64);
  });
});
