import { afterEach, describe, expect, it } from "vitest";
import { systemClock } from "../../electron/services/base/clock.ts";
import { printedCode } from "../../shared/seats/code.ts";
import { openRoom, type Room } from "../faults/seats/room.ts";
import { type Driver, pressOn, sees, typeInto, until } from "./support/driver.ts";
import { noFirefox, openFirefox } from "./support/firefox.ts";
import { noWebKit, openWebKit } from "./support/webkit.ts";

const browsers = [
  { name: "Firefox ESR", missing: noFirefox(), open: openFirefox },
  { name: "WebKitGTK", missing: noWebKit(), open: openWebKit },
];
for (const { name, missing } of browsers) {
  if (missing !== null) console.log(`Seats in ${name} are skipped: ${missing}`);
}

let driver: Driver | null = null;
let room: Room | null = null;
afterEach(async () => {
  await driver?.close();
  await room?.close();
  driver = null;
  room = null;
});

/** Presses, again where what has just appeared took none, until the page says so. */
async function pressUntil(page: Driver, name: string, said: string): Promise<void> {
  await until(
    page,
    `"${name}" makes it say "${said}"`,
    async () => {
      await pressOn(page, name);
      const last = Date.now() + 400;
      while (Date.now() < last) {
        if ((await page.read<string>("document.body.innerText")).includes(said)) return true;
      }
      return null;
    },
    20_000,
  );
}

describe.each(browsers)("A seat in $name", ({ missing, open }) => {
  it.skipIf(missing !== null)(
    "joins by code, is asked at a cue, answers, takes it back, is away, and sees a pause and the end",
    async () => {
      // A cue comes every six seconds.
      const here = await openRoom({ clock: systemClock(10), students: ["Fern", "Robin"] });
      room = here;
      driver = await open({});
      const page = driver;
      await page.open(`http://127.0.0.1:${here.port}/`);
      await typeInto(page, "The code on your slip", printedCode(here.codeOf(1)).toLowerCase());
      await pressOn(page, "Join");
      await sees(page, "This is what a cue looks like");
      await pressOn(page, "Ready");
      await sees(page, "All quiet. Your seat is ready.");
      const { id: sessionId } = await here.start();
      await sees(page, "Do your work.");
      await pressUntil(page, "Yes, I was working", "Recorded");
      await pressUntil(page, "Undo", "Was I working just now?");
      await pressUntil(page, "I was away", "Away");
      await here.handlers.sessions.pause({ sessionId }, here.context);
      await sees(page, "A pause. Nothing is asked now.");
      await here.handlers.sessions.resume({ sessionId }, here.context);
      await sees(page, "Do your work.");
      await here.handlers.sessions.end({ sessionId }, here.context);
      await sees(page, "Done. Thank you.");
      expect(await page.errors()).toEqual([]);
      const said = (await here.logOf(sessionId)).flatMap((body) =>
        body.kind === "mark" ? [body.value] : body.kind === "said-away" ? ["away"] : [],
      );
      room = null;
      expect(said).toEqual(["on", "none", "away"]);
    },
    60_000,
  );
});
