import { afterEach, describe, expect, it } from "vitest";
import { type Host, startHost } from "../e2e/support/launch.ts";
import { temporaryFolder } from "../e2e/support/temporary-folder.ts";
import { type Driver, pressOn, sees, typeInto, until } from "./support/driver.ts";
import { noFirefox, openFirefox } from "./support/firefox.ts";
import { openSoundServer, type SoundServer } from "./support/sound-server.ts";
import { noWebKit, openWebKit } from "./support/webkit.ts";

const browsers = [
  { name: "Firefox ESR", missing: noFirefox(), open: openFirefox },
  { name: "WebKitGTK", missing: noWebKit(), open: openWebKit },
];
for (const { name, missing } of browsers) {
  if (missing !== null) console.log(`${name} is skipped: ${missing}`);
}

let host: Host | null = null;
let driver: Driver | null = null;
let sound: SoundServer | null = null;
const data = temporaryFolder();
afterEach(async () => {
  await driver?.close();
  await host?.close();
  await sound?.close();
  driver = null;
  host = null;
  data.remove();
});

describe.each(browsers)("The main job in $name", ({ missing, open }) => {
  it.skipIf(missing !== null)(
    "goes from an empty notebook to a sounded session, its marks, its results and a printed card",
    async () => {
      host = await startHost({ dataFolder: data.path, args: ["--speed", "10"] });
      sound = await openSoundServer();
      driver = await open(sound?.env ?? {});
      const page = driver;
      await page.open(host.address);
      await typeInto(page, "Group name", "Table two");
      await pressOn(page, "Make this group");
      await typeInto(page, "Add students", "Fern\nRobin\nAsh");
      await pressOn(page, "Add 3 students");
      await sees(page, "Robin");
      await pressOn(page, "Start a session");
      // The one sheet before a session asks to hear the chime, which is the press that lets sound through.
      await pressOn(page, "Hear the chime");
      await until(page, "the start can be pressed", () =>
        page.read<boolean>(
          `[...document.querySelectorAll("button")].some((each) => each.textContent.trim() === "Start the session" && !each.disabled)`,
        ),
      );
      await pressOn(page, "Start the session");
      await pressOn(page, "Students’ tiles");
      const mark = async (name: string, yes: boolean) => {
        const words = `${name}: ${yes ? "yes, I was working" : "no, I was not working"}`;
        await until(
          page,
          `${name} is recorded`,
          async () => {
            if (
              await page.read<boolean>(
                `document.querySelector('.tile-recorded[aria-label="${name}"]') !== null`,
              )
            )
              return true;
            await pressOn(page, words).catch(() => undefined);
            return null;
          },
          60_000,
        );
      };
      await mark("Fern", true);
      // A cue that could not sound, or that waits for a press, would be said so beside the clock.
      const said = await page.read<string>("document.body.innerText");
      if (sound !== null)
        expect(said).not.toMatch(/Sound is waiting|could not sound|cannot be heard/);
      expect(await page.errors()).toEqual([]);
      await pressOn(page, "End");
      await pressOn(page, "End it");
      await sees(page, "The session is over");
      await pressOn(page, "Groups");
      await pressOn(page, "Table two");
      const cards = await until(page, "the way to the cards", () =>
        page.read<string | null>(
          `document.querySelector("a[href^='/print/cards/']")?.href ?? null`,
        ),
      );
      await page.open(cards);
      await until(page, "a sheet of cards", () =>
        page.read<boolean>(`document.querySelector(".sheet .card") !== null`),
      );
      expect(await page.errors()).toEqual([]);
    },
    180_000,
  );
});
