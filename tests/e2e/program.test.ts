import type { Page } from "playwright";
import { expect, it } from "vitest";
import { openStore, type Store } from "../../electron/store/store.ts";
import { dayNumber, dayText, weekdayOf } from "../../shared/calendar/calendar.ts";
import { firstPlan, type PlanSettings } from "../../shared/plan/plan.ts";
import type { SessionEventBody } from "../../shared/session/event.ts";
import { oneApp } from "./support/one-app.ts";

const app = oneApp();

const dayMs = 86_400_000;
const offsetMinutes = -new Date().getTimezoneOffset();
const today = dayText(Math.floor((Date.now() + offsetMinutes * 60_000) / dayMs));
const daysAgo = (days: number) => dayText(dayNumber(today) - days);
const cues = 10;
/** More than Today lists, so that older cards must be sought for themselves. */
const sessionsHeld = 9;

interface Held {
  readonly groupId: string;
  readonly studentIds: readonly string[];
  readonly day: string;
  readonly plan: PlanSettings;
  readonly planName: string;
  readonly isMarked: boolean;
}

/** A session that is over: nine of ten marks on task and seen so by the teacher, or cards not typed in. */
function hold(store: Store, { groupId, studentIds, day, plan, planName, isMarked }: Held): void {
  // A minute after midnight, so that a session of today is over whenever the test runs.
  const startedMs = dayNumber(day) * dayMs + 60_000 - offsetMinutes * 60_000;
  const facts = { groupId, kind: "seatwork", planName, plan, seed: "kiwi", day } as const;
  const session = store.sessions.create({ ...facts, startedMs, offsetMinutes });
  const bodies: SessionEventBody[] = [{ kind: "begun" }];
  for (let cue = 1; cue <= cues; cue++) {
    bodies.push({ kind: "announced", cue });
    bodies.push({ kind: "delivered", cue, by: "sound", latenessMs: 0, problem: null });
    for (const studentId of isMarked ? studentIds : []) {
      const value = cue === cues ? "off" : "on";
      bodies.push({ kind: "mark", studentId, cue, value, way: "screen", late: false });
      if (cue % 3 === 1) bodies.push({ kind: "spot-check", studentId, cue, value });
    }
  }
  bodies.push({ kind: "ended", reason: "finished" });
  bodies.forEach((body, index) => {
    store.log.append(session.id, body, { atMs: index, wallMs: startedMs + index, offsetMinutes });
  });
}

/** A class whose goal has held, one with old cards, and one that does not sit today. */
function prepare(store: Store): { groupId: string; studentIds: string[] } {
  const madeMs = Date.now() - 40 * dayMs;
  const make = (name: string, plan: PlanSettings) => {
    const { id } = store.groups.create({ name, target: "", isSample: false }, madeMs);
    store.plans.create({ groupId: id, name: "Reading", settings: plan }, madeMs);
    const studentIds = store.students.add(id, ["Pine", "Otter"], madeMs).map((each) => each.id);
    return { groupId: id, studentIds };
  };
  const birch = make("Birch", firstPlan);
  const facts = { groupId: birch.groupId, studentId: null, label: "", draw: null, probes: null };
  store.phases.create({ ...facts, kind: "intervention", startsOn: daysAgo(20) }, madeMs);
  for (let at = sessionsHeld; at >= 1; at -= 1) {
    hold(store, {
      ...birch,
      day: daysAgo(at),
      plan: firstPlan,
      planName: "Reading",
      isMarked: true,
    });
  }
  const paper = { ...firstPlan, recording: "paper" } as const;
  const elm = make("Elm", paper);
  hold(store, { ...elm, day: daysAgo(30), plan: paper, planName: "Reading", isMarked: false });
  const weekday = weekdayOf(dayNumber(today));
  store.groups.setWeekdays(elm.groupId, [(weekday % 7) + 1]);
  store.groups.setWeekdays(birch.groupId, [1, 2, 3, 4, 5, 6, 7]);
  return birch;
}

function inStore<Result>(path: string, work: (store: Store) => Result): Result {
  const store = openStore({ folder: path, now: Date.now });
  try {
    return work(store);
  } finally {
    store.close();
  }
}

it("takes an advised step, draws a phase and its probes, and overrules with a note", async () => {
  const birch = inStore(app.folder(), prepare);
  const page = await app.open();

  await page.getByText("Birch: Thin the cues.").waitFor();
  await page.getByRole("link", { name: /^Enter cards of Elm/ }).waitFor();
  const others = section(page, "Other groups");
  await others.getByRole("button", { name: "Start a session with Elm" }).waitFor();
  expect(await others.getByRole("button", { name: /Birch/ }).count()).toBe(0);

  await page.getByRole("link", { name: "See why, and decide: Birch" }).click();
  await page.getByRole("button", { name: "Do it: change the plan" }).click();
  await page.getByText("Done. The plan “Reading” now has a cue about every 3 minutes. ").waitFor();
  const phases = section(page, "Phases");
  await phases.getByRole("cell", { name: "Cues every 3 minutes", exact: true }).waitFor();
  await page.getByText("No session at this step has marks yet.").waitFor();

  await drawMaintenance(page);
  await phases.getByText(/drawn 2 times: the test of the start is not exact/).waitFor();
  await phases.getByText(/^Probes on .+, .+, .+, .+ \(seed [a-z0-9]+\)$/).waitFor();
  await app.close();

  inStore(app.folder(), (store) => {
    const [plan] = store.plans.list(birch.groupId);
    expect(plan?.settings.meanSeconds).toBe(180);
    hold(store, { ...birch, day: today, plan: firstPlan, planName: "Reading", isMarked: true });
  });
  const again = await app.open();
  await again.getByRole("link", { name: "Birch", exact: true }).waitFor();
  await again.getByRole("link", { name: "See progress" }).first().click();
  await again.locator("svg text", { hasText: "Cues every 3 minutes" }).first().waitFor();

  await again.getByRole("button", { name: "I see it differently" }).click();
  const keep = again.getByRole("button", { name: "Save the note" });
  expect(await keep.isDisabled()).toBe(true);
  await again.getByLabel("What you see, and what you do instead").fill("A new seating plan first");
  await keep.click();
  await again.getByText(/was overruled: A new seating plan first$/).waitFor();
});

/** The part of a page under a heading. */
function section(page: Page, heading: string) {
  return page
    .locator("section")
    .filter({ has: page.getByRole("heading", { name: heading, exact: true }) });
}

/** Adds a maintenance phase whose first day is drawn twice, with the usual number of probes. */
async function drawMaintenance(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Add a phase" }).click();
  await page.getByRole("button", { name: /What it is/ }).click();
  await page.getByRole("option", { name: "Maintenance" }).click();
  await page.getByText("Draw the first day at random").click();
  const save = page.getByRole("button", { name: "Save", exact: true });
  expect(await save.isDisabled()).toBe(true);
  await page.getByRole("button", { name: "Draw the day" }).click();
  await page.getByText("Drawn from 14 school days").waitFor();
  await page.getByRole("button", { name: "Draw again" }).click();
  await page.getByText("Drawn 2 times so far.").waitFor();
  await page.getByText("Probe on drawn days").click();
  await page.getByText(/^Drawn: .+ That is about one in 14 school days\.$/).waitFor();
  await save.click();
}
