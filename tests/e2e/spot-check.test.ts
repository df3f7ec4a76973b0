import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { openStore } from "../../electron/store/store.ts";
import { spotCheckDraw } from "../../shared/agreement/spot-check-draw.ts";
import { oneApp } from "./support/one-app.ts";
import { paced } from "./support/pace.ts";
import { silentClass } from "./support/silent-class.ts";
import {
  answerOnTile,
  appearsMs,
  asked,
  button,
  link,
  lookNow,
  makeGroup,
  openPlanMore,
} from "./support/steps.ts";

const app = oneApp();

/** A practice of a class of two, in which every cue asks about both. */
async function practise(): Promise<Page> {
  const page = await app.open(...paced(4));
  await makeGroup(page, "Table two", ["Fern", "Robin"]);
  await link(page, "Today").click();
  await link(page, "Practice with the class: Table two").click();
  await button(page, "Start the practice").click();
  await button(page, "Start the session").click();
  return page;
}

/** What the log of the newest session says of checks: value, cue, late. */
function checksLogged(): unknown[] {
  const store = openStore({ folder: app.folder(), now: Date.now });
  try {
    const [session] = store.sessions.list(null, 1);
    return store.log
      .read(session?.id ?? "", 0)
      .flatMap(({ body }) =>
        body.kind === "spot-check" ? [[body.value, body.cue, body.late ?? false]] : [],
      );
  } finally {
    store.close();
  }
}

async function end(page: Page) {
  await button(page, "End").click();
  await button(page, "End it").click();
  await page.locator(".session-end").waitFor();
}

describe("A spot check", () => {
  it("keeps each student's keys through the check, answers once a press, and is skipped by Escape", async () => {
    const page = await practise();
    await answerOnTile(page, "Fern", "yes");
    await answerOnTile(page, "Robin", "yes");
    await lookNow(page, "Robin");
    // The press left the focus with the check, at its first answer.
    expect(await page.evaluate(() => document.activeElement?.textContent)).toMatch(/^working/);

    // Held down: the first student is answered, the second is not.
    await page.keyboard.down("1");
    await asked(page, "Fern").waitFor({ state: "hidden" });
    for (let repeat = 0; repeat < 5; repeat += 1) await page.keyboard.down("1");
    await page.keyboard.up("1");
    await asked(page, "Robin").waitFor();
    // Robin's own key, as it was before Fern was answered.
    await page.keyboard.press("3");
    await asked(page, "Robin").waitFor({ state: "hidden" });
    expect(await page.evaluate(() => document.activeElement?.tagName)).not.toBe("BODY");

    await lookNow(page, "Fern");
    await page.keyboard.press("w");
    await asked(page, "Robin").waitFor({ state: "hidden" });
    await page.keyboard.press("Escape");
    await asked(page, "Fern").waitFor({ state: "hidden" });
    expect(await button(page, "Look now").count()).toBe(0);

    await end(page);
    await button(page, "Show the results").click();
    // Two looks at the first cue, both as recorded; nothing was compared at the second. So few get no percentage.
    await page.getByText("You and the students said the same at 2 of 2 checks.").waitFor();
  });

  it("of one's own choice shows no name before a second press, and says when it is not compared", async () => {
    const page = await practise();
    await button(page, "Check someone").click();
    await page.getByText("The class can see this screen").waitFor();
    expect(await button(page, /^Fern$/).count()).toBe(0);
    // No cue has come yet.
    await page.getByText("kept as a note of what you saw, and not compared").waitFor();
    await button(page, "Show the names").click();
    await page.waitForTimeout(appearsMs);
    await button(page, /^Fern$/).click();
    await page.waitForTimeout(appearsMs);
    await asked(page, "Fern").getByText("working").click();
    await asked(page, "Fern").waitFor({ state: "hidden" });
    // Confirmed, and taken back.
    await page.getByText("Noted", { exact: true }).first().waitFor();
    await page.waitForTimeout(appearsMs);
    await page
      .getByRole("group", { name: "Spot check" })
      .getByRole("button", { name: "Undo" })
      .click();
    await page.getByText("Undone").waitFor();
    await button(page, "Teacher’s view").click();
    await page.getByText("Names on this screen").click();
    await button(page, "Check someone").click();
    await button(page, /^Robin$/).waitFor();
    // Escape closes the slip, wherever the focus is, and leaves a check that waits.
    await page.locator(".strip-group").click();
    await page.keyboard.press("Escape");
    await button(page, /^Robin$/).waitFor({ state: "hidden" });
    await end(page);
    await app.close();
    expect(checksLogged()).toEqual([
      ["on", null, false],
      ["unseen", null, false],
    ]);
  });

  it("waits beyond the next cue, is then late in the log too, and can be taken back", async () => {
    const { groupId, planId } = silentClass(app.folder(), ["Ash"], {
      plan: {
        meanSeconds: 60,
        checkPace: "second",
        studentsPerCheck: 1,
        lengthSeconds: 300,
        recording: "paper",
      },
    });
    const page = await app.open(...paced(4));
    await page.goto(new URL(`/groups/${groupId}/plans/${planId}`, page.url()).href);
    await openPlanMore(page);
    await page.getByLabel("Seed", { exact: true }).fill(seedOfFirstCueOnly());
    await button(page, "Start a session with this seed").click();
    await button(page, "Start the session").click();
    await page.waitForURL(/\/session\//);
    await lookNow(page, "Ash");
    const late = page.getByRole("group", { name: "Ash, at cue 1? Late" });
    await late.waitFor({ timeout: 30_000 });
    const answer = (name: string) => late.getByRole("button", { name: new RegExp(`^${name}`) });
    await page.waitForTimeout(appearsMs);
    await answer("not").click();
    await page.getByText("Noted", { exact: true }).first().waitFor();
    // A second press where the answer was does not reach the undo.
    expect(await late.count()).toBe(0);
    await page.waitForTimeout(appearsMs);
    await button(page, "Undo").click();
    await late.waitFor();
    await page.waitForTimeout(appearsMs);
    await answer("working").click();
    await page.getByText("Noted", { exact: true }).first().waitFor();
    // Confirmed for some seconds, then gone; and nothing is asked twice.
    await button(page, "Undo").waitFor({ state: "hidden", timeout: 15_000 });
    expect(await late.count()).toBe(0);
    await end(page);
    await app.close();
    expect(checksLogged()).toEqual([
      ["off", 1, true],
      ["unseen", 1, true],
      ["on", 1, true],
    ]);
  });
});

/** A seed that checks the one student of the session above at its first cue, and not at the two after it. */
function seedOfFirstCueOnly(): string {
  const cueCount = 5;
  for (let tries = 0; ; tries += 1) {
    const seed = `check ${tries}`;
    const cues = spotCheckDraw({
      seed,
      cueCount,
      every: 2,
      present: Array.from({ length: cueCount }, () => ["Ash"]),
      studentsPerCheck: 1,
      earlierChecks: {},
      closely: new Set(),
    }).map(({ cueIndex }) => cueIndex);
    if (cues[0] === 0 && (cues[1] ?? cueCount) > 2) return seed;
  }
}

describe("Single keys", () => {
  it("rest while a dialog is open, while a child's tile has the focus, and when they are switched off", async () => {
    const page = await practise();
    await lookNow(page, "Fern");
    const isAsked = async () => {
      await page.waitForTimeout(appearsMs);
      expect(await asked(page, "Fern").count()).toBe(1);
    };

    await page.locator(".tile").first().focus();
    await page.keyboard.press("1");
    await page.keyboard.press("Escape");
    await isAsked();

    // Escape closes the dialog and leaves the check beneath it.
    await button(page, "End").click();
    await page.getByRole("alertdialog").waitFor();
    await page.keyboard.press("1");
    await page.keyboard.press("Escape");
    await page.getByRole("alertdialog").waitFor({ state: "hidden" });
    await isAsked();

    await link(page, "Settings").click();
    await page
      .getByRole("radiogroup", { name: "Answer with single keys" })
      .getByText("Off", { exact: true })
      .click();
    await link(page, "Session running").click();
    await lookNow(page, "Fern");
    await page.keyboard.press("1");
    await isAsked();
    // Escape is no single key: it still skips.
    await page.keyboard.press("Escape");
    await asked(page, "Fern").waitFor({ state: "hidden" });
    await end(page);
    await app.close();
    expect(checksLogged()).toEqual([]);
  });
});
