import { spawnSync } from "node:child_process";
import type { Page } from "playwright";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { encodeWav } from "../../shared/sound/wav.ts";
import { ffmpegIsThere } from "../reference/sound/ffmpeg.ts";
import { axeFindingsInBoth } from "./support/axe.ts";
import { delayCalls } from "./support/delay-calls.ts";
import { launchLoopback } from "./support/launch.ts";
import { openedBy } from "./support/one-app.ts";
import { openPlanMore } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const folder = temporaryFolder();
let app: Awaited<ReturnType<typeof launchLoopback>>;
let page: Page;
let plan: string;

beforeAll(async () => {
  app = await launchLoopback({ dataFolder: folder.path, args: ["--sample", "--speed", "20"] });
  page = await app.page();
  const link = page.locator("a[href*='/plans/']").first();
  await link.waitFor();
  plan = new URL((await link.getAttribute("href")) ?? "/", page.url()).href;
});

afterAll(async () => {
  await app.close();
  folder.remove();
});

/** The plan with all that is closed at first opened. */
async function openPlan() {
  await page.goto(plan);
  await page.getByText("Everything on this page is saved.").waitFor();
  await openPlanMore(page);
  for (const name of ["Could a student guess", "What can sessions tell"]) {
    await page.getByText(new RegExp(`^${name}`)).click();
  }
}

beforeEach(openPlan);

const button = (name: string) => page.getByRole("button", { name, exact: true });
const field = (name: string) => page.getByLabel(name, { exact: true });
const choose = (group: string, name: string) =>
  page.getByRole("radiogroup", { name: group }).getByText(name, { exact: true }).click();

it.each(["groups/list", "students/list"])(
  "stands still from its first paint, however late %s is answered",
  async (word) => {
    const late = await openedBy(page, "/settings");
    await late.addInitScript(delayCalls, { word, ms: 800 });
    await late.goto(plan);
    const seen = await late.evaluate(async () => {
      const tops = new Set<number>();
      const until = performance.now() + 2_000;
      while (performance.now() < until) {
        const more = document.querySelector(".plan-form + .plan-foot");
        const first = document.querySelector(".plan-form details");
        if (more !== null && first !== null)
          tops.add(Math.round(first.getBoundingClientRect().top));
        await new Promise((resolve) => setTimeout(resolve, 16));
      }
      return tops.size;
    });
    expect(seen).toBe(1);
    await late.close();
  },
);

describe("A length typed by hand", () => {
  const own = () => field("A cue about every: own value");
  const inUnit = (unit: string) =>
    page.locator(".plan-own").first().getByText(unit, { exact: true }).click();

  it("stays as it was typed, through another unit, another field and saving by key", async () => {
    await choose("How often does a cue come?", "Other…");
    await own().fill("1:45");
    await page.getByText("That is 105 seconds.").waitFor();
    await inUnit("seconds");
    await field("No cue in the first").focus();
    expect(await own().inputValue()).toBe("1:45");
    await own().fill("2,5");
    await inUnit("minutes");
    expect(await own().inputValue()).toBe("2,5");
    await page.getByText("about every 2.5 minutes").waitFor();
    await page.keyboard.press("ControlOrMeta+s");
    await button("Saved").waitFor();
    await page.reload();
    await page.getByText("about every 2.5 minutes").waitFor();
    await choose("How often does a cue come?", "2 minutes");
    await button("Save").click();
    await button("Saved").waitFor();
  });

  it("that cannot be read is left standing, explained, and kept from being saved", async () => {
    const leadIn = field("No cue in the first");
    await leadIn.fill("a while");
    await leadIn.press("Tab");
    expect(await leadIn.inputValue()).toBe("a while");
    await page.getByText(/^Write a time such as 90/).waitFor();
    expect(await button("Save").isDisabled()).toBe(true);
    await page.keyboard.press("ControlOrMeta+s");
    await page.getByText(/^There are unsaved changes/).waitFor();
    await leadIn.fill("30 s");
    await expect.poll(() => button("Save").isEnabled()).toBe(true);
    await button("Undo the changes").click();
    expect(await leadIn.inputValue()).toBe("0");
  });
});

describe("A plan that cannot be run", () => {
  it("says why at the field, and at the foot what the nearest one changes", async () => {
    const shortest = field("Never closer than");
    await shortest.fill("500");
    const notice = page.locator(".plan-foot").getByRole("alert");
    await notice.getByText("This plan cannot run yet").waitFor();
    expect(await notice.textContent()).toContain("never closer than 1 minute.");
    expect(await shortest.getAttribute("aria-invalid")).toBe("true");
    expect(await describedAs("Never closer than")).toContain(
      "The average must be longer than the shortest gap.",
    );
    expect(await page.locator(".plan-precision").isVisible()).toBe(false);
    await button("Use the nearest plan").click();
    expect(await field("Never closer than").inputValue()).toBe("60");
    await expect.poll(() => notice.count()).toBe(0);
    expect(await page.locator(".plan-precision").isVisible()).toBe(true);
    await button("Undo the changes").click();
  });
});

/** What a screen reader adds to a field's name. */
const describedAs = (name: string) =>
  field(name).evaluate((each) =>
    (each.getAttribute("aria-describedby") ?? "")
      .split(" ")
      .map((id) => document.getElementById(id)?.textContent ?? "")
      .join(" "),
  );

describe("Leaving with changes", () => {
  const dialog = () => page.getByRole("alertdialog", { name: "Save the changes to this plan?" });
  const leave = () => page.getByRole("link", { name: "Today" }).click();

  it("asks, and stays, leaves or keeps as it is told", async () => {
    await field("Name of the plan").fill("Morning");
    await leave();
    await dialog().waitFor();
    await button("Stay here").click();
    expect(page.url()).toBe(plan);
    expect(await field("Name of the plan").inputValue()).toBe("Morning");

    await leave();
    await button("Leave without saving").click();
    await page.waitForURL((url) => url.pathname === "/");
    await openPlan();
    expect(await field("Name of the plan").inputValue()).toBe("First plan");

    await field("Name of the plan").fill("Morning plan");
    await leave();
    await button("Save and leave").click();
    await page.waitForURL((url) => url.pathname === "/");
    await page.goto(plan);
    await page.getByRole("heading", { name: "Morning plan" }).waitFor();
  });

  it("does not ask when nothing was changed", async () => {
    await leave();
    await page.waitForURL((url) => url.pathname === "/");
  });
});

describe("Beside the settings", () => {
  it("the planner answers for other spells and changes, in a sentence and a chart", async () => {
    const sentence = () =>
      page.locator(".plan-precision .figure-summary").textContent({ timeout: 5_000 });
    const sessions = async () => Number(/After (\d+) session/.exec((await sentence()) ?? "")?.[1]);
    const medium = await sessions();
    await choose("Picture a student who works in", "long spells");
    await expect.poll(sessions).toBeGreaterThan(medium);
    const long = await sessions();
    await choose("A change you would want to notice", "30 points");
    await expect.poll(sessions).toBeLessThan(long);
    await choose("Picture a student who works in", "Other…");
    await field("At work, about").fill("0");
    await page.getByText("Both spells must be longer than 0 seconds.").waitFor();
    await field("At work, about").fill("3 min");
    await expect.poll(() => page.locator(".plan-precision .chart").count()).toBe(1);
    const rows = page.locator(".plan-precision tbody tr");
    await expect.poll(() => rows.count()).toBeGreaterThanOrEqual(12);
  });

  it("the floor tells what it gives away, and a fixed plan that it is predictable", async () => {
    await page.getByText(/^Chance alone nearly always gives this many/).waitFor();
    await field("At least this many cues").fill("10");
    await page.getByText(/schedules in 100 have fewer and are drawn again/).waitFor();
    await choose("The wait between two cues", "The same every time");
    await page.getByText(/^Predictable: a student who watched/).waitFor();
    await page.getByText(/Students will soon know when the cue comes/).waitFor();
    await button("Undo the changes").click();
  });

  it("thinning shows every step, and which does not fit into the session", async () => {
    const steps = page.locator(".plan-steps li");
    expect(await steps.count()).toBe(4);
    await choose("How long is a session?", "10 minutes");
    await choose("Down to a cue about every", "20 minutes");
    await expect.poll(() => steps.last().textContent()).toContain("not in this session");
    await button("Undo the changes").click();
  });

  it("a series of thinning sessions has seeds, keys and a session to start", async () => {
    await page.getByText(/^every 2:00 min/).click();
    await field("Seed of the series").fill("spring");
    const link = page.getByRole("link", { name: "Print the cue times of session 2" });
    await expect
      .poll(() => link.getAttribute("href"))
      .toContain("seed=spring%2Fsession-2&mean=120");
    await button("Use the seed of session 2").click();
    expect(await field("Seed").inputValue()).toBe("spring/session-2");
    expect(page.url()).toContain("series=spring");
    await page.reload();
    // An address that names a series is one of this part of the page.
    await field("Seed of the series").waitFor();
    expect(await field("Seed of the series").inputValue()).toBe("spring");
    await choose("Number of steps", "3");
    await page.getByText(/^every 4:28 min/).click();
    await page.getByRole("link", { name: "Print the cue times of session 4" }).click();
    await page.getByText(/This sheet is for a thinning step/).waitFor();
    await page
      .getByText(/^Seed spring\/session-4, stream cues:/)
      .first()
      .waitFor();
    await page.getByRole("button", { name: /Whose cues/ }).click();
    await page.getByRole("option").nth(1).click();
    await page
      .getByText(/^Seed spring\/session-4, stream cues\/[0-9a-f-]{36}:/)
      .first()
      .waitFor();
    await page.goto(plan);
  });

  it("all of it, opened, passes axe in light and dark", async () => {
    await field("At least this many cues").fill("10");
    await page.getByText(/schedules in 100 have fewer/).waitFor();
    const closed = "main details:not([open]) > summary";
    while ((await page.locator(closed).count()) > 0) await page.locator(closed).first().click();
    await choose("Picture a student who works in", "Other…");
    await choose("How long is a session?", "Other…");
    await field("No cue in the last").fill("soon");
    expect(await axeFindingsInBoth(page)).toEqual([]);
    await button("Undo the changes").click();
  });
});

describe("The chime", () => {
  it("that cannot be loaded says so where it was to be heard", async () => {
    await page.route(/\/assets\/pluck[^/]*\.(wav|ogg|opus|flac|mp3)$/, (route) => route.abort());
    await openPlan();
    await choose("Chime", "Pluck");
    await page.getByText("The chime could not sound").waitFor();
    await page.getByText(/^The chime could not be loaded/).waitFor();
    await page.unrouteAll();
    await button("Undo the changes").click();
  });
});

/** The same struck tone in each of the promised kinds of file; the packed ones where ffmpeg can make them. */
function chimeFiles(): { name: string; mimeType: string; buffer: Buffer }[] {
  const tone = Float64Array.from(
    { length: 48_000 },
    (_, at) => 0.2 * Math.sin(at / 9) * Math.exp(-at / 9_000),
  );
  const wav = Buffer.from(encodeWav(tone, 48_000));
  const packed = (kind: string) =>
    spawnSync("ffmpeg", ["-i", "pipe:0", "-f", kind, "pipe:1"], { input: wav }).stdout;
  return [
    { name: "Hand bell.wav", mimeType: "audio/wav", buffer: wav },
    ...(ffmpegIsThere
      ? [
          { name: "Small gong.mp3", mimeType: "audio/mpeg", buffer: packed("mp3") },
          { name: "Tall glass.ogg", mimeType: "audio/ogg", buffer: packed("ogg") },
        ]
      : []),
  ];
}

describe("A chime of one's own", () => {
  it("is brought from a file, chosen, kept with the plan, and given up for the bell", async ({
    task,
  }) => {
    // A further try finds what the one before it brought.
    const turn = task.result?.retryCount ?? 0;
    const named = (name: string) => (turn === 0 ? name : `${name} ${turn}`);
    await page.getByText("A chime of your own").click();
    for (const file of chimeFiles()) {
      await page
        .getByLabel("Sound file (WAV, MP3 or OGG)")
        .setInputFiles({ ...file, name: named(file.name).replace(/(\..*?)( \d)?$/, "$2$1") });
      await page.getByText(/^Added and chosen, as loud as the other chimes/).waitFor();
      const name = named(file.name.replace(/\..*/, ""));
      await page.getByRole("radio", { name, exact: true }).waitFor({ state: "attached" });
      expect(await page.getByRole("radio", { name, exact: true }).isChecked()).toBe(true);
      await button(`Hear ${name}`).click();
    }
    expect(await page.getByText("The chime could not sound").count()).toBe(0);
    await choose("Chime", named("Hand bell"));
    await button("Save").click();
    await button("Saved").waitFor();
    await openPlan();
    const bell = page.getByRole("radio", { name: named("Hand bell"), exact: true });
    expect(await bell.isChecked()).toBe(true);
    await page.getByText("A chime of your own").click();
    await button(`Remove the chime ${named("Hand bell")}`).click();
    await page.getByText("One plan had it and now has the bell.").waitFor();
    await openPlan();
    expect(await page.getByRole("radio", { name: "Bell", exact: true }).isChecked()).toBe(true);
  });

  it("that is no sound, or too long, is refused with what to do", async () => {
    await page.getByText("A chime of your own").click();
    const bring = (buffer: Buffer) =>
      page
        .getByLabel("Sound file (WAV, MP3 or OGG)")
        .setInputFiles({ name: "x.wav", mimeType: "audio/wav", buffer });
    await bring(Buffer.from("no sound"));
    await page.getByText(/^This file cannot be read as sound/).waitFor();
    const long = Float64Array.from({ length: 9 * 48_000 }, (_, at) => 0.1 * Math.sin(at / 9));
    await bring(Buffer.from(encodeWav(long, 48_000)));
    await page.getByText(/^This sound is longer than 8 seconds/).waitFor();
  });
});

describe("A given seed", () => {
  it("starts a session with just its cues, and stands on the cards of that session", async ({
    task,
  }) => {
    // What a try before this one saved would leave nothing to save.
    const minutes = 5 + (task.result?.retryCount ?? 0);
    await choose("How long is a session?", "Other…");
    await field("Length of the session: own value").fill(`${minutes} min`);
    await button("Save").click();
    await button("Saved").waitFor();
    const sentence = `For ${minutes} minutes, a chime sounds about every 2 minutes`;
    await page.getByText(new RegExp(`^${sentence}`)).waitFor();
    await field("Seed").fill("linden");
    const wanted = (await page.locator(".plan-times").textContent()) ?? "";
    const count = Number(/^(\d+) cues/.exec(wanted)?.[1]);
    // A loudspeaker that reads the screen aloud must not tell the class when the cues come.
    const spoken = await page.locator("[aria-live], [role=status], [role=alert]").allTextContents();
    expect(spoken).toContain(`${count} cues`);
    expect(spoken.filter((words) => /\d:\d\d/.test(words))).toEqual([]);
    await field("Name of the plan").fill("Other name");
    expect(await button("Start a session with this seed").isDisabled()).toBe(true);
    await page.getByText(/^Save the changes to the plan first/).waitFor();
    await button("Undo the changes").click();
    await button("Start a session with this seed").click();
    await button("Start the session").click();
    await page.waitForURL(/\/session\//);
    const session = page.url();
    await page.getByRole("heading", { name: "The session is over" }).waitFor({ timeout: 90_000 });
    await page.goto(`${session}/cards`);
    await page.getByText("Seed of this session").click();
    await page.getByText(/from the seed “linden”/).waitFor();
    expect(await page.locator(".page-lead").textContent()).toContain(`${count} cues`);
  });
});

describe("The foot", () => {
  /** Fields that have the focus and lie under the foot in part, walked through with Tab. */
  async function hiddenStops(): Promise<string[]> {
    const hidden: string[] = [];
    await page.getByRole("link", { name: "Sample class (invented)" }).first().focus();
    for (let stop = 0; stop < 60; stop += 1) {
      await page.keyboard.press("Tab");
      const found = await page.evaluate(() => {
        const focused = document.activeElement;
        const foot = document.querySelector(".plan-foot");
        // What stands beside the page, in the spine, is under no foot.
        if (focused === null || focused.closest("#page") === null) return "";
        if (foot === null || foot.contains(focused)) return "";
        const seen = focused.closest("label") ?? focused;
        const { bottom } = seen.getBoundingClientRect();
        const covers = getComputedStyle(foot).position === "sticky";
        const limit = covers ? foot.getBoundingClientRect().top : window.innerHeight;
        return bottom > limit + 1 ? `${seen.textContent?.slice(0, 40)} ${bottom} > ${limit}` : "";
      });
      if (found !== "") hidden.push(found);
    }
    return hidden;
  }

  it.each([
    { width: 1280, height: 800 },
    { width: 1280, height: 600 },
    { width: 683, height: 384 },
  ])("hides nothing that has the focus at $width x $height, with an error", async (size) => {
    const before = page.viewportSize();
    await page.setViewportSize(size);
    await field("Never closer than").fill("500");
    await page.getByText("This plan cannot run yet.").waitFor();
    expect(await hiddenStops()).toEqual([]);
    await button("Undo the changes").click();
    if (before !== null) await page.setViewportSize(before);
  });

  it("takes the keyboard to the field that is wrong, and opens what hides it", async () => {
    await field("No cue in the first").fill("2000");
    await button("Show me where").waitFor();
    await page.getByText(/^More: sound, spot checks/).click();
    await button("Show me where").click();
    const isFocused = () =>
      field("No cue in the first").evaluate((e) => e === document.activeElement);
    await expect.poll(isFocused).toBe(true);
    expect(await field("No cue in the first").isVisible()).toBe(true);
    await button("Undo the changes").click();
  });

  it("ends the page, and stays nowhere, where the window is low", async () => {
    const before = page.viewportSize();
    const position = () =>
      page.locator(".plan-foot").evaluate((each) => getComputedStyle(each).position);
    await page.setViewportSize({ width: 1280, height: 599 });
    expect(await position()).toBe("static");
    await page.setViewportSize({ width: 1280, height: 600 });
    expect(await position()).toBe("sticky");
    if (before !== null) await page.setViewportSize(before);
  });
});

describe("Above six students", () => {
  it("paper is offered first, and why", async () => {
    const ways = page.getByRole("radiogroup", { name: "How do students record?" });
    expect(await ways.getByRole("radio").first().getAttribute("value")).toBe("paper");
    await ways.getByText(/^With 8 students, paper is calmer/).waitFor();
  });
});
