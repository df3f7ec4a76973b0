import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { newId } from "../../electron/store/new-id.ts";
import { openStore } from "../../electron/store/store.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import type { SessionEventBody } from "../../shared/session/event.ts";
import { oneApp } from "./support/one-app.ts";
import { answerOnTile, button, link, makeGroup, openPlanMore, showTiles } from "./support/steps.ts";

const app = oneApp();

/** Opens the contract of a student of the invented class, and gives today as that page has it. */
async function openContract(page: Page, name: string): Promise<string> {
  await link(page, "Sample class (invented)").first().click();
  await button(page, `More for ${name}`).click();
  await page.getByRole("menuitem", { name: "Contract" }).click();
  await page.getByRole("heading", { name: `Contract: ${name}` }).waitFor();
  return page.getByLabel("First day").inputValue();
}

const daysBefore = (day: string, days: number) =>
  new Date(Date.parse(day) - days * 86_400_000).toISOString().slice(0, 10);

const tried = (page: Page) =>
  page.getByText(/^In the last ten sessions this would have been met on/);
const metOf = async (page: Page) =>
  Number(/on (\d+) of/.exec((await tried(page).textContent()) ?? "")?.[1]);

async function setGoal(page: Page, percent: number): Promise<void> {
  await page.getByLabel("Goal, out of 100").fill(String(percent));
  await page.keyboard.press("Tab");
}

describe("A contract", () => {
  it("is checked against the record as it is written, signed, closed for the day and looked at together", async () => {
    const page = await app.open("--sample");
    const today = await openContract(page, "Heron");
    await page.getByText("Working, by self-records", { exact: true }).click();
    await setGoal(page, 100);
    await tried(page).waitFor();
    const hard = await metOf(page);
    await page.getByText("A first contract should be met on most days").waitFor();
    await setGoal(page, 40);
    await page.getByText("A first contract should be met").waitFor({ state: "detached" });
    expect(await metOf(page)).toBeGreaterThan(hard);
    // Self-records never cost, so nothing is offered that would.
    expect(await page.getByText("A day that misses it may cost points").count()).toBe(0);
    expect(await button(page, "Write it down").isDisabled()).toBe(true);
    await page.getByLabel("Who checks it").fill("Ms Reed");
    await page.getByLabel("What else it earns").fill("Lunch with a friend");
    await page.getByText(/belong to every child/).waitFor();
    await page.getByLabel("What else it earns").fill("I choose the game on Friday");
    // Beyond three weeks there is no review.
    await page.getByLabel("First day").fill(daysBefore(today, 30));
    await page.getByText("within three weeks").first().waitFor();
    await page.getByLabel("First day").fill(daysBefore(today, 14));
    await page.getByLabel("We look at it together on").fill(today);
    await button(page, "Write it down").click();
    await page.getByText("Not signed yet.").waitFor();
    await page.getByText("Heron records “working” at 4 of 10 cues or more.").waitFor();
    await link(page, "Print to sign").click();
    const sheet = page.locator(".sheet");
    await sheet.getByText("I can say “I was working” 4 times out of 10.").waitFor();
    await sheet.getByText("I may say no to this.").waitFor();
    await sheet.getByText("nothing happens. I try again tomorrow.").waitFor();
    expect(await sheet.getByText(/not yet|met/i).count()).toBe(0);
    await link(page, "Contract: Heron").click();
    await link(page, "Today").click();
    await page.getByText("Heron’s contract waits for signatures.").waitFor();
    await link(page, "Contract of Heron").click();
    await button(page, "Both have signed").click();
    await page.getByText(/^Met on \d+ of \d+ days?/).waitFor();
    await page.getByText("Time to look at it together").waitFor();
    await page
      .getByText(/The next step is \d+%/)
      .first()
      .waitFor();
    await link(page, "Today").click();
    await page.getByText(/Look at Heron’s contract together/).waitFor();
    await link(page, "Contract of Heron").click();
    await button(page, "Write the next one").click();
    await button(page, /Take the next step: \d+%/).click();
    expect(Number(await page.getByLabel("Goal, out of 100").inputValue())).toBeGreaterThan(40);
    await button(page, "Not now").click();
    await button(page, "End it today").click();
    await page.getByText("Earlier contracts (1)").click();
    await page.getByText(/: \d+ of \d+ days\./).waitFor();
  });

  it("has today closed by a press, and what it paid follows what is entered and corrected later", async () => {
    const page = await app.open("--speed", "10");
    await makeGroup(page, "Table two", ["Fern", "Robin"]);
    await page.locator("a[href*='/plans/']").first().click();
    await openPlanMore(page);
    await page.getByText("The usual", { exact: true }).click();
    await page.locator(".plan-foot").getByRole("button", { name: "Save" }).click();
    await page.getByText("Everything on this page is saved.").waitFor();
    await link(page, "Table two").first().click();
    await button(page, "More for Fern").click();
    await page.getByRole("menuitem", { name: "Contract" }).click();
    await page.waitForURL(/\/contract$/);
    const { pathname } = new URL(page.url());
    await page.getByLabel("Who checks it").fill("Ms Reed");
    await button(page, "Write it down").click();
    await button(page, "Both have signed").click();
    await page.getByText("No day with seatwork yet.").waitFor();
    expect(await button(page, "Close today").count()).toBe(0);
    await link(page, "Table two").first().click();
    await button(page, "Start a session").click();
    await button(page, "Start the session").click();
    await page.waitForURL(/\/session\//);
    const cards = `${new URL(page.url()).pathname}/cards`;
    await showTiles(page);
    // Once somebody has answered, the cue has reached the class.
    await answerOnTile(page, "Robin", "yes");
    await button(page, "End").click();
    await button(page, "End it").click();
    await page.getByText("Ended", { exact: true }).first().waitFor();
    const saysToday = (outcome: string, points: string, on = page) =>
      on
        .locator(".home-days tbody tr")
        .filter({ has: on.getByRole("cell", { name: outcome, exact: true }) })
        .filter({ has: on.getByRole("cell", { name: points, exact: true }) })
        .waitFor();
    // Nobody has noted any work: the day says nothing, and closing it costs nothing.
    await page.goto(new URL(pathname, page.url()).href);
    await saysToday("no data", "still open");
    await button(page, "Close today").click();
    await saysToday("no data", "0");
    await button(page, "Close today").waitFor({ state: "detached" });
    const other = await app.another(pathname);
    await other.locator(".home-days").waitFor();
    const enter = async (completed: string) => {
      await page.goto(new URL(cards, page.url()).href);
      await page.getByText("Enter items assigned, completed and correct").click();
      await page.getByLabel("Fern: items assigned").fill("10");
      await page.getByLabel("Fern: items completed").fill(completed);
      await button(page, "Save work done").click();
      await expect.poll(() => button(page, "Save work done").isDisabled()).toBe(true);
      await page.goto(new URL(pathname, page.url()).href);
    };
    await enter("9");
    await saysToday("met", "3");
    await enter("5");
    await saysToday("not yet", "0");
    await enter("8");
    await saysToday("met", "3");
    await page.getByText("Met on 1 of 1 day.").waitFor();
    // A second window that stood open has followed.
    await saysToday("met", "3", other);
    await link(page, "Table two").first().click();
    await link(page, "Points").first().click();
    await button(page, "Add a list to start with").click();
    await page.getByText("3 points", { exact: true }).first().waitFor();
  });

  it("that is refused is put away without a trace on paper or on Today", async () => {
    const page = await app.open("--sample");
    await openContract(page, "Wren");
    await page.getByLabel("Who checks it").fill("Ms Reed");
    await button(page, "Write it down").click();
    await button(page, "Put it away").click();
    await page.getByText("Earlier contracts (1)").click();
    await page.getByText(/put away without signatures/).waitFor();
    expect(await link(page, "Print to sign").count()).toBe(0);
    await link(page, "Today").click();
    await link(page, "Sample class (invented)").first().waitFor();
    await page.waitForFunction(() => !document.body.textContent?.includes("Wren’s contract"));
  });

  it("measured by self-records that match too rarely is named on Today; of an archived student none is", async () => {
    const names = ["Fern", "Robin"];
    const [store, wallMs] = [openStore({ folder: app.folder(), now: Date.now }), Date.now()];
    const day = new Date(wallMs).toISOString().slice(0, 10);
    // They were there an hour ago.
    const madeMs = wallMs - 7_200_000;
    const room = { name: "Table two", target: "", isSample: false };
    const { id: groupId } = store.groups.create(room, madeMs);
    const ids = store.students.add(groupId, names, madeMs).map(({ id }) => id);
    store.plans.create({ groupId, name: "First", settings: firstPlan }, madeMs);
    const facts = { groupId, kind: "seatwork", planName: "First", plan: firstPlan } as const;
    const when = { startedMs: wallMs - 3_600_000, offsetMinutes: 0, day };
    const { id: sessionId } = store.sessions.create({ ...facts, ...when, seed: "match" });
    // Ten marks of on task, of which an adult saw three so.
    const cues = Array.from({ length: 10 }, (_, at) => at + 1);
    const bodies: SessionEventBody[] = [
      { kind: "begun" },
      ...cues.flatMap((cue): SessionEventBody[] => [
        { kind: "announced", cue },
        { kind: "delivered", cue, by: "sound", latenessMs: 0, problem: null },
        ...ids.flatMap((studentId): SessionEventBody[] => [
          { kind: "mark", studentId, cue, value: "on", way: "screen", late: false },
          { kind: "spot-check", studentId, cue, value: cue <= 3 ? "on" : "off" },
        ]),
      ]),
      { kind: "ended", reason: "teacher" },
    ];
    store.log.appendAll(sessionId, bodies, { atMs: 0, wallMs, offsetMinutes: 0 });
    for (const studentId of ids) {
      const terms = {
        wording: "young",
        goal: { kind: "rate", rate: 0.8, measure: "self" },
        points: 2,
        earns: "",
        cost: 0,
        checkedBy: "Ms Reed",
      } as const;
      const id = newId(wallMs);
      const signedOn = daysBefore(day, 14);
      const days = { fromDay: signedOn, reviewOn: day, signedOn, endedOn: null };
      store.contracts.add({ id, studentId, terms, ...days }, wallMs);
    }
    store.close();
    const page = await app.open();
    const low = (name: string) => page.getByText(`${name}’s contract goes by self-records`);
    await low("Fern")
      .getByText(/at only 30% of 10 cues/)
      .waitFor();
    await low("Robin").waitFor();
    await page.getByText("Look at Robin’s contract together").waitFor();
    await link(page, "Table two").first().click();
    await button(page, "More for Robin").click();
    await page.getByRole("menuitem", { name: "Archive" }).click();
    await page.getByText("1 archived student").waitFor();
    await link(page, "Today").click();
    await low("Fern").waitFor();
    await expect.poll(() => page.getByText("Robin’s contract").count()).toBe(0);
  });
});
