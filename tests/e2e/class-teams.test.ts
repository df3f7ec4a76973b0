import { afterAll, expect, it } from "vitest";
import { openDesktop } from "../../electron/host/desktop.ts";
import { systemClock } from "../../electron/services/base/clock.ts";
import { noRules } from "../../shared/plan/earning.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import { addStudents } from "../setup/add-students.ts";
import { launchLoopback } from "./support/launch.ts";
import { openedBy } from "./support/one-app.ts";
import { button } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const folder = temporaryFolder();
afterAll(() => folder.remove());

const caller = { clientId: "journey", signal: new AbortController().signal };
// Invented names.
const names = Array.from({ length: 40 }, (_, at) => `Leaf ${at + 1}`);
const long = "Choose my seat for a lesson";

/** Forty students in eight teams, one session behind them and one that is open, and two privileges under way. */
async function fortyInTeams(): Promise<string> {
  const clock = systemClock(1);
  const desktop = await openDesktop({ folder: folder.path, clock, host: "loopback", version: "1" });
  const { groups, plans, teams, sessions, points, records } = desktop.handlers;
  const { id: groupId } = await groups.create({ name: "Room 4", target: "" }, caller);
  const ids = (await addStudents(desktop.handlers, groupId, names, caller)).map(({ id }) => id);
  const [plan] = await plans.list({ groupId }, caller);
  if (plan === undefined) throw new Error("no plan");
  const settings = {
    ...firstPlan,
    recording: "paper",
    cueing: "silent",
    earning: { kind: "own", rules: { ...noRules, mark: 1 } },
  } as const;
  await plans.update({ id: plan.id, name: plan.name, settings }, caller);
  const weekday = ((new Date().getDay() + 6) % 7) + 1;
  const term = { size: 5, rounds: 1, weekday, goal: 0.7, points: 2, isShown: true };
  await teams.saveSettings({ groupId, settings: term }, caller);
  const dealt = Array.from({ length: 8 }, (_, at) => ids.slice(5 * at, 5 * at + 5));
  await teams.deal({ groupId, deals: 0, rounds: [dealt] }, caller);
  const start = (seed: string) =>
    sessions.start({ groupId, planId: plan.id, kind: "seatwork", seed }, caller);
  const { id: sessionId } = await start("kiwi");
  await sessions.end({ sessionId }, caller);
  const cards = ids.map((studentId, at) => ({
    studentId,
    card: { kind: "totals", on: at < 20 ? 9 : 4, off: at < 20 ? 1 : 6 } as const,
  }));
  await records.saveCards({ sessionId, cards }, caller);
  for (const name of [long, "Lead the line to the library"]) {
    const cheap = { price: 3, band: 1, places: null, minutes: 25, perDay: null } as const;
    const facts = { groupId, name, picture: null, notFor: [], ...cheap };
    const made = await points.addPrivilege(facts, caller);
    await points.startTimer({ privilegeId: made.id }, caller);
  }
  const { id } = await start("pear");
  await desktop.close();
  return id;
}

it("Eight teams and two timers stand side by side on the class screen of a laptop, nothing over anything", async () => {
  const sessionId = await fortyInTeams();
  const app = await launchLoopback({ dataFolder: folder.path });
  try {
    const page = await app.page();
    await page.goto(new URL(`/session/${sessionId}`, page.url()).href);
    await button(page, "Resume").first().click();
    const shown = await openedBy(page, "/tiles");
    await shown.setViewportSize({ width: 1366, height: 768 });
    await shown.getByText(long).waitFor();
    await page.bringToFront();
    await button(page, "End").click();
    await button(page, "End it").click();
    const teams = shown.locator(".class-teams li");
    await expect.poll(() => teams.count()).toBe(8);
    expect(await teams.filter({ hasText: "Goal met" }).count()).toBe(4);
    expect(await teams.filter({ hasText: "Not yet" }).count()).toBe(4);
    const boxes = await shown
      .locator(".class-teams li, .class-timer, .board-words, .own-purses-open")
      .evaluateAll((all) =>
        all.map((each) => {
          const { left, right, top, bottom } = each.getBoundingClientRect();
          return { left, right, top, bottom };
        }),
      );
    expect(boxes).toHaveLength(8 + 2 + 1 + 1);
    for (const [at, one] of boxes.entries()) {
      expect(Math.min(one.left, one.top)).toBeGreaterThanOrEqual(0);
      expect(one.right).toBeLessThanOrEqual(1366);
      expect(one.bottom).toBeLessThanOrEqual(768);
      for (const other of boxes.slice(at + 1)) {
        const isApart =
          one.right <= other.left ||
          other.right <= one.left ||
          one.bottom <= other.top ||
          other.bottom <= one.top;
        expect(isApart, JSON.stringify([one, other])).toBe(true);
      }
    }
  } finally {
    await app.close();
  }
});
