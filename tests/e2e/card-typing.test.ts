import type { Page } from "playwright";
import { afterEach, expect, it } from "vitest";
import { openStore } from "../../electron/store/store.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import { randomStream } from "../../shared/schedule/stream.ts";
import type { SessionEventBody } from "../../shared/session/event.ts";
import { launchLoopback } from "./support/launch.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

let running: Awaited<ReturnType<typeof launchLoopback>> | null = null;
let folder: ReturnType<typeof temporaryFolder> | null = null;

afterEach(async () => {
  await running?.close();
  running = null;
  folder?.remove();
  folder = null;
});

const students = 24;
const boxes = 10;
/** The time in which a teacher should be done, in minutes. */
const minutesAllowed = 4;
/**
 * Keys a minute of somebody who looks for each one. Common practice, no source: it is about twelve words
 * a minute at five keys a word, well under what people who type every day reach.
 */
const slowTypist = 70;

/** A session on paper that is over, with so many cues, whose cards wait to be typed in. */
function sessionOnPaper(folder: string): string {
  const store = openStore({ folder, now: Date.now });
  try {
    const wallMs = Date.now() - 3_600_000;
    const group = store.groups.create({ name: "Whole class", target: "", isSample: false }, wallMs);
    const names = Array.from({ length: students }, (_, index) => `Student ${index + 1}`);
    store.students.add(group.id, names, wallMs);
    const plan = { ...firstPlan, meanSeconds: 60, recording: "paper" } as const;
    store.plans.create({ groupId: group.id, name: "Cards", settings: plan }, wallMs);
    const session = store.sessions.create({
      groupId: group.id,
      kind: "seatwork",
      planName: "Cards",
      plan,
      seed: "twenty-four cards",
      startedMs: wallMs,
      offsetMinutes: 0,
      day: new Date(wallMs).toISOString().slice(0, 10),
    });
    const happened: SessionEventBody[] = [{ kind: "begun" }];
    for (let cue = 1; cue <= boxes; cue++) {
      happened.push({ kind: "announced", cue });
      happened.push({ kind: "delivered", cue, by: "sound", latenessMs: 0, problem: null });
    }
    happened.push({ kind: "ended", reason: "finished" });
    happened.forEach((body, index) => {
      const atMs = Math.round((index / happened.length) * plan.lengthSeconds * 1000);
      store.log.append(session.id, body, { atMs, wallMs: wallMs + atMs, offsetMinutes: 0 });
    });
    return session.id;
  } finally {
    store.close();
  }
}

/** Has the page count every key that goes down, whoever takes it. */
async function countKeys(page: Page): Promise<() => Promise<number>> {
  await page.evaluate(() => {
    let keys = 0;
    addEventListener(
      "keydown",
      () => {
        keys += 1;
      },
      { capture: true },
    );
    Object.assign(window, { keysDown: () => keys });
  });
  return () => page.evaluate("keysDown()");
}

it("takes 24 cards of ten boxes with eleven keys a card, fewer than four minutes of slow typing", async () => {
  folder = temporaryFolder();
  const sessionId = sessionOnPaper(folder.path);
  running = await launchLoopback({ dataFolder: folder.path });
  const page = await running.page();
  await page.getByRole("link", { name: "Enter cards" }).first().click();
  await page.getByRole("heading", { name: "Cards of Whole class" }).waitFor();
  expect(page.url()).toContain(sessionId);

  const draw = randomStream("the class", "marks");
  const cards = Array.from({ length: students }, () =>
    Array.from({ length: boxes }, () => (draw() < 0.7 ? "+" : "-")),
  );
  await page.getByLabel("Student 1, box 1: nothing recorded").focus();
  const keys = await countKeys(page);
  for (const card of cards) {
    await page.keyboard.type(card.join(""));
    await page.keyboard.press("Enter");
  }
  await page.getByText("All saved").waitFor();

  const pressed = await keys();
  const minutes = pressed / slowTypist;
  console.log(
    `${students} cards of ${boxes} boxes: ${pressed} keys, ${minutes.toFixed(1)} minutes at ${slowTypist} keys a minute.`,
  );
  expect(pressed).toBe(students * (boxes + 1));
  expect(minutes).toBeLessThan(minutesAllowed);

  await page.reload();
  await page.getByLabel("Student 24, box 10:").waitFor();
  const kept = await page
    .getByRole("grid")
    .getByRole("row")
    .evaluateAll((rows) =>
      rows.map((row) => [...row.querySelectorAll("[data-place]")].map((box) => box.textContent)),
    );
  const typed = cards.map((card) => card.map((key) => (key === "+" ? "+" : "–")));
  expect(kept.filter((row) => row.length > 0).map((row) => row.slice(0, boxes))).toEqual(typed);
});
