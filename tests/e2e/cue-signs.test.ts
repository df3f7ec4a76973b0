import type { Locator, Page } from "playwright";
import { describe, expect, it } from "vitest";
import { openStore } from "../../electron/store/store.ts";
import { firstPlan, type PlanSettings } from "../../shared/plan/plan.ts";
import type { SessionEventBody } from "../../shared/session/event.ts";
import { oneApp } from "./support/one-app.ts";
import { button, showTiles } from "./support/steps.ts";

const app = oneApp();

/** A cue every five real seconds, closer than the fifteen for which one's sign stands. */
const speed = 2;
const everyFive = { law: "fixed", meanSeconds: 10, shortestGapSeconds: 0 } as const;

function classOfThree(plan: Partial<PlanSettings>): void {
  const store = openStore({ folder: app.folder(), now: Date.now });
  try {
    const nowMs = Date.now() - 60_000;
    const group = store.groups.create({ name: "Room 12", target: "", isSample: false }, nowMs);
    store.students.add(group.id, ["Ash", "Birch", "Cedar"], nowMs);
    const settings = { ...firstPlan, ...everyFive, fewestCues: 0, lengthSeconds: 240, ...plan };
    store.plans.create({ groupId: group.id, name: "Every ten", settings }, nowMs);
    store.settings.save({ soundChecked: true });
  } finally {
    store.close();
  }
}

/** Closes the app, and says what became of each cue of the newest session as its log has it. */
async function logged(): Promise<SessionEventBody[]> {
  await app.close();
  const store = openStore({ folder: app.folder(), now: Date.now });
  try {
    const [session] = store.sessions.list(null, 1);
    return store.log
      .read(session?.id ?? "", 0)
      .map(({ body }) => body)
      .filter(({ kind }) => kind === "delivered" || kind === "undelivered");
  } finally {
    store.close();
  }
}

/** Has the page keep what its live regions come to say, from its first moment. */
function listenToRegions() {
  const said: string[] = [];
  const before = new WeakMap<Element, string>();
  const look = () => {
    for (const region of document.querySelectorAll("[aria-live], [role=status]")) {
      const words = (region.textContent ?? "").trim();
      if (words !== (before.get(region) ?? "") && words !== "") said.push(words);
      before.set(region, words);
    }
  };
  new MutationObserver(look).observe(document, {
    childList: true,
    subtree: true,
    characterData: true,
  });
  Object.assign(window, { saidSoFar: said });
}

const saidBy = (page: Page, words: string): Promise<number> =>
  page.evaluate((words) => {
    // As it was set up above.
    const { saidSoFar } = window as unknown as { saidSoFar: string[] };
    return saidSoFar.filter((each) => each === words).length;
  }, words);

/** Pictures of places on the page at each cue from the next on, by place, taken when its sign has come to rest. */
async function atEachCue(page: Page, words: string, cues: number, places: readonly Locator[]) {
  const pictures = places.map((): Buffer[] => []);
  await page.bringToFront();
  // The first one of a window takes longest.
  for (const place of places) await place.screenshot();
  for (let count = 0; count < cues; count++) {
    const before = await saidBy(page, words);
    await expect.poll(() => saidBy(page, words), { timeout: 12_000 }).toBe(before + 1);
    await page.waitForTimeout(500);
    for (const [index, place] of places.entries()) {
      // What fades in is taken as it will be.
      pictures[index]?.push(await place.screenshot({ animations: "disabled" }));
    }
    // Else the picture may be of the next cue, and says nothing.
    expect(await saidBy(page, words)).toBe(before + 1);
  }
  return pictures;
}

function eachUnlikeTheOneBefore(pictures: readonly Buffer[]): void {
  for (const [index, picture] of pictures.entries()) {
    const [last, lastButOne] = [pictures[index - 1], pictures[index - 2]];
    if (last !== undefined) expect([index, picture.equals(last)]).toEqual([index, false]);
    // The page draws the same thing alike, so that a difference is the sign's and nothing else's.
    if (lastButOne !== undefined) {
      expect([index, picture.equals(lastButOne)]).toEqual([index, true]);
    }
  }
}

const question = "Was I working just now?";

describe("Cues that nobody answers, closer than their sign stands", () => {
  it.each([
    ["Students’ tiles", ".tiles", "Done. Thank you. The last answer can still be given."],
    ["Class board", ".board", "Done. Thank you."],
  ])(
    "each show and are read out once: %s, and the strip",
    async (view, place, endWords) => {
      classOfThree({ cueing: "silent", recording: "screen" });
      const page = await app.open("--speed", String(speed));
      await button(page, "Start a session with Room 12").waitFor();
      await page.addInitScript(listenToRegions);
      await page.reload();
      await button(page, "Start a session with Room 12").click();
      await button(page, "Start the session").click();
      await page.waitForURL(/\/session\//);
      await button(page, view).click();
      const strip = page.getByRole("region", { name: "Teacher’s strip" });
      const places = [page.locator(`${place} .cue-sign`), strip.locator(".cue-sign")];
      for (const pictures of await atEachCue(page, question, 4, places)) {
        eachUnlikeTheOneBefore(pictures);
      }

      await button(page, "Pause").click();
      await expect.poll(() => saidBy(page, "A short break")).toBe(1);
      await page.waitForTimeout(400);
      await button(page, "Resume").click();
      await page.waitForTimeout(400);
      await button(page, "End").click();
      await button(page, "End it").click();
      await expect.poll(() => saidBy(page, endWords)).toBe(1);
      // A second region that says the same would say it within a moment.
      await page.waitForTimeout(1_000);
      expect(await saidBy(page, "A short break")).toBe(1);
      expect(await saidBy(page, endWords)).toBe(1);
      // As often as the log says, and not once more.
      const said = await saidBy(page, question);
      const delivered = (await logged()).filter(({ kind }) => kind === "delivered").length;
      expect(delivered).toBeGreaterThanOrEqual(4);
      expect(said).toBe(delivered);
    },
    120_000,
  );

  it("show on the strip and are read out there under a plan that cues the teacher alone", async () => {
    classOfThree({ cueing: "teacher", recording: "paper" });
    const page = await app.open("--speed", String(speed));
    await button(page, "Start a session with Room 12").waitFor();
    await page.addInitScript(listenToRegions);
    await page.reload();
    await button(page, "Start a session with Room 12").click();
    await button(page, "Start the session").click();
    await page.waitForURL(/\/session\//);
    const strip = page.getByRole("region", { name: "Teacher’s strip" });
    const sign = strip.locator(".strip-cue .cue-sign");
    for (const pictures of await atEachCue(page, "Cue now", 4, [sign])) {
      eachUnlikeTheOneBefore(pictures);
    }
    const said = await saidBy(page, "Cue now");
    const delivered = (await logged()).filter(({ kind }) => kind === "delivered").length;
    expect(said).toBe(delivered);
  }, 60_000);
});

/** Has the page's sound wait for ever for a press, as some browsers do until there is one. */
function keepSilent() {
  AudioContext.prototype.resume = () => new Promise(() => {});
  Object.defineProperty(BaseAudioContext.prototype, "state", { get: () => "suspended" });
}

/** Has the page paint nothing, as one that lies behind another does. */
function hidePage() {
  Object.defineProperty(document, "visibilityState", { get: () => "hidden" });
  window.requestAnimationFrame = () => 0;
}

describe("A cue that cannot sound", () => {
  it("shows on the tiles where these are in sight, and the notice says so", async () => {
    classOfThree({ cueing: "sound", recording: "screen" });
    const page = await app.open("--speed", String(speed));
    await button(page, "Start a session with Room 12").waitFor();
    await page.addInitScript(listenToRegions);
    await page.addInitScript(keepSilent);
    await page.reload();
    await button(page, "Start a session with Room 12").click();
    await button(page, "Start the session").click();
    await page.waitForURL(/\/session\//);
    await showTiles(page);
    await page.getByText("each cue is shown on the students’ tiles").waitFor();
    const sign = page.locator(".tiles .cue-sign");
    for (const pictures of await atEachCue(page, question, 4, [sign])) {
      eachUnlikeTheOneBefore(pictures);
    }
    const said = await saidBy(page, question);
    const cues = await logged();
    expect(cues.length).toBeGreaterThanOrEqual(4);
    for (const cue of cues) {
      expect(cue).toMatchObject({ kind: "delivered", by: "sight", problem: "locked" });
    }
    expect(said).toBe(cues.length);
  }, 60_000);

  it("is not written as shown by a page that did not paint it", async () => {
    classOfThree({ cueing: "silent", recording: "screen" });
    const page = await app.open("--speed", String(speed));
    await button(page, "Start a session with Room 12").waitFor();
    await page.addInitScript(hidePage);
    await page.reload();
    await button(page, "Start a session with Room 12").click();
    await button(page, "Start the session").click();
    await page.waitForURL(/\/session\//);
    await showTiles(page);
    // Two cues and the second in which each might still be painted.
    await page.waitForTimeout(14_500);
    const cues = await logged();
    expect(cues.length).toBeGreaterThanOrEqual(2);
    for (const cue of cues)
      expect(cue).toMatchObject({ kind: "undelivered", problem: "not-shown" });
  }, 60_000);
});
