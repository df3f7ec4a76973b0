import type { Page } from "playwright";
import { afterEach, describe, expect, it } from "vitest";
import { systemClock } from "../../electron/services/base/clock.ts";
import { noRules } from "../../shared/plan/earning.ts";
import { openRoom, type Room, type RoomOptions } from "../faults/seats/room.ts";
import { devices } from "./support/seats.ts";
import { button } from "./support/steps.ts";

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
});
