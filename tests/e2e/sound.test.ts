import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";
import { button, link, makeGroup, openPlanMore } from "./support/steps.ts";

const app = oneApp();

/** Starts the app and prepares its page before that is loaded anew. */
async function open(prepare: (page: Page) => Promise<unknown>, ...args: string[]) {
  const page = await app.open(...args);
  await prepare(page);
  await page.reload();
  return page;
}

const two = ["Ash", "Birch"];

/** Chooses one of the plan's ways, and saves. */
async function choose(page: Page, ...ways: string[]) {
  await page.getByRole("link", { name: "First plan", exact: true }).click();
  await openPlanMore(page);
  for (const way of ways) await page.getByText(way, { exact: true }).click();
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await button(page, "Saved").waitFor();
}

async function startAfterCheck(page: Page, group: string) {
  await link(page, "Today").click();
  await button(page, `Start a session with ${group}`).click();
  await button(page, "Hear the chime").click();
}

async function end(page: Page) {
  await page.getByRole("button", { name: "End", exact: true }).click();
  await button(page, "End it").click();
}

describe("A chime that cannot be loaded", () => {
  it("is said in the sound check, shown in its place on the teacher's own screen, and said on every page", async () => {
    const page = await open(
      (page) => page.route(/bell[^/]*\.wav/, (route) => route.abort()),
      "--speed",
      "40",
    );
    await makeGroup(page, "Paper side", two);
    await choose(page, "on paper");
    await startAfterCheck(page, "Paper side");
    await page.getByText("The chime could not be loaded.").waitFor();
    await button(page, "Start the session").click();
    const strip = page.getByRole("region", { name: "Teacher’s strip" });
    await strip.getByText("the chime could not be loaded").waitFor();
    await page.getByText("Was I working just now?").waitFor({ timeout: 30_000 });
    await strip.getByText("the chime could not be loaded").waitFor();

    await page.goBack();
    await link(page, "Groups").click();
    await page.getByText("The cues of the running session cannot be heard").waitFor();
  });
});

/** Has the page keep the loudest sample of each block of sound that goes to the loudspeaker. */
function listen() {
  const heard: number[] = [];
  const { connect } = AudioNode.prototype;
  // biome-ignore lint/suspicious/noExplicitAny: the page's own connect has two shapes, and both go on unchanged
  AudioNode.prototype.connect = function (this: AudioNode, to: any, ...rest: any[]): any {
    if (to instanceof AudioDestinationNode && !(this instanceof ScriptProcessorNode)) {
      // A node that reaches the loudspeaker belongs to a live context.
      const tap = (this.context as AudioContext).createScriptProcessor(1024, 1, 1);
      tap.onaudioprocess = ({ inputBuffer }) => {
        const samples = inputBuffer.getChannelData(0);
        heard.push(samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0));
      };
      Reflect.apply(connect, this, [tap]);
      Reflect.apply(connect, tap, [to]);
    }
    return connect.call(this, to, ...rest);
  };
  Object.assign(window, { loudest: () => heard.splice(0).reduce((a, b) => Math.max(a, b), 0) });
}

describe("The volume", () => {
  it("holds from a chime's first sample, in the check and when the session begins, and is kept", async () => {
    const page = await open((page) => page.addInitScript(listen));
    await makeGroup(page, "Quiet side", two);
    await link(page, "Today").click();
    await button(page, "Start a session with Quiet side").click();
    const volume = page.getByRole("slider", { name: "Volume" });
    await volume.focus();
    await page.keyboard.press("Home");
    // Nothing is heard at volume 0: the check says so, and neither plays nor starts.
    await page.getByText("At volume 0 the class hears nothing").waitFor();
    expect(await button(page, "Hear the chime").isDisabled()).toBe(true);
    expect(await button(page, "Start the session").isDisabled()).toBe(true);
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowRight");
    const loudest = async () => Number(await page.evaluate("loudest()"));
    /** Hears a chime through, until all is quiet. They peak at about half of full scale; a tenth of that is 0.05. */
    const soundsAsChosen = async () => {
      let peak = 0;
      const heard = async () => {
        peak = Math.max(peak, await loudest());
        return peak;
      };
      await expect.poll(heard, { timeout: 10_000 }).toBeGreaterThan(0.01);
      await page.waitForTimeout(700);
      expect(await heard()).toBeLessThan(0.06);
      await expect.poll(loudest, { interval: 300, timeout: 10_000 }).toBeLessThan(0.001);
    };
    await button(page, "Hear the chime").click();
    await page.getByText("It has just been played.").waitFor();
    await soundsAsChosen();
    await button(page, "Start the session").click();
    await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
    await soundsAsChosen();
  });
});

describe("The sound check", () => {
  it("leads on to a practice, and is not asked for again there", async () => {
    const page = await app.open();
    await makeGroup(page, "New side", two);
    await startAfterCheck(page, "New side");
    await button(page, "Yes, it could").click();
    await button(page, "Practice first").click();
    await page.getByRole("heading", { name: "Practice with the class" }).waitFor();
    await button(page, "Start the practice").click();
    await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
    expect(await button(page, "Hear the chime").count()).toBe(0);
  });

  it("is offered again after a start that failed, and no more after one that succeeded", async () => {
    const page = await app.open();
    await makeGroup(page, "First side", two);
    await startAfterCheck(page, "First side");
    await page.getByText("It has just been played.").waitFor();

    // Another window starts a session without hearing the chime, so this one's start is refused.
    const other = await app.another("/");
    await button(other, "Start a session with First side").click();
    await button(other, "Start the session").click();
    await other.getByRole("region", { name: "Teacher’s strip" }).waitFor();
    await button(page, "Start the session").click();
    await page.getByText("That did not work").waitFor();
    await end(other);

    // Played is not yet heard from the farthest seat; a "no" plays it again, louder.
    await button(page, "Start a session with First side").click();
    const volume = page.getByRole("slider", { name: "Volume" });
    const before = Number(await volume.inputValue());
    await button(page, "Hear the chime").click();
    await page.getByText("It has just been played.").waitFor();
    await button(page, "No, make it louder").click();
    await expect.poll(async () => Number(await volume.inputValue())).toBeGreaterThan(before);
    await page.getByText("It has just been played.").waitFor();
    await button(page, "Yes, it could").click();
    await page.getByText("The chime stays at this volume.").waitFor();
    await button(page, "Start the session").click();
    const strip = page.getByRole("region", { name: "Teacher’s strip" });
    await strip.waitFor();
    await end(page);

    await link(page, "Today").click();
    await button(page, "Start a session with First side").click();
    await page.getByRole("dialog", { name: "Who is here today?" }).waitFor();
    expect(await button(page, "Hear the chime").count()).toBe(0);
    await button(page, "Start the session").click();
    await strip.waitFor();
  });
});

/** Has the page keep the moments, in its own milliseconds, at which its board takes up, changes or lays down the sign of a cue. */
function watchBoard() {
  const changes: number[] = [];
  let signBefore: Element | null = null;
  new MutationObserver(() => {
    // Drawn anew for each cue.
    const sign = document.querySelector(".board .cue-rings-on");
    if (sign !== signBefore) changes.push(performance.now());
    signBefore = sign;
  }).observe(document, { attributes: true, childList: true, subtree: true });
  Object.assign(window, { changesSeen: changes });
}

describe("The silent cue", () => {
  it.each([
    { motion: "no-preference", least: 0.3, most: 2 },
    { motion: "reduce", least: 0, most: 0 },
  ] as const)("changes slowly and seldom with motion $motion", async ({ motion, least, most }) => {
    // Watched from the page's first moment: cues come faster here than the sign of the last one goes.
    const page = await open((page) => page.addInitScript(watchBoard), "--speed", "60");
    await page.emulateMedia({ reducedMotion: motion });
    await makeGroup(page, "Still side", two);
    await choose(page, "everybody, without sound", "on paper");
    await link(page, "Today").click();
    await button(page, "Start a session with Still side").click();
    await button(page, "Start the session").click();
    const rings = page.locator(".board-asks .cue-rings");
    await rings.waitFor({ timeout: 60_000 });
    const changes: number[] = [];
    const read = async () => {
      const times = await rings.evaluate((each) => {
        const { transitionDuration, animationDuration } = getComputedStyle(each);
        return [transitionDuration, animationDuration].map((time) => Number.parseFloat(time));
      });
      changes.splice(0, changes.length, ...times);
      return changes.some(Number.isNaN);
    };
    // A sign that is taken away while it is read has no style; the next one comes in a second.
    await expect.poll(read).toBe(false);
    for (const seconds of changes) {
      expect(seconds).toBeGreaterThanOrEqual(least);
      expect(seconds).toBeLessThanOrEqual(most);
    }
    await page.waitForTimeout(4000);
    // As it was set up above.
    const moments = (await page.evaluate("changesSeen")) as number[];
    expect(moments.length).toBeGreaterThan(0);
    // WCAG 2.2 SC 2.3.1: nothing flashes more than three times in any one second. Each change is half a flash.
    for (const [index, at] of moments.entries()) {
      const within = moments.slice(index).filter((other) => other - at < 1000);
      expect(within.length).toBeLessThanOrEqual(3);
    }
  });
});
