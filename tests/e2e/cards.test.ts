import type { Page } from "playwright";
import { expect, it } from "vitest";
import { openStore } from "../../electron/store/store.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import { randomStream } from "../../shared/schedule/stream.ts";
import type { SessionEventBody } from "../../shared/session/event.ts";
import { oneApp } from "./support/one-app.ts";

const app = oneApp();

/** As many as a class has; the smaller tests need fewer. */
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
function sessionOnPaper(folder: string, studentCount = students): string {
  const store = openStore({ folder, now: Date.now });
  try {
    const wallMs = Date.now() - 3_600_000;
    const group = store.groups.create({ name: "Whole class", target: "", isSample: false }, wallMs);
    const names = Array.from({ length: studentCount }, (_, index) => `Student ${index + 1}`);
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

/** The cards of a class of so many, waiting to be typed in. */
async function openCards(studentCount: number): Promise<Page> {
  const sessionId = sessionOnPaper(app.folder(), studentCount);
  const page = await app.open();
  await page.getByRole("link", { name: "Enter cards" }).first().click();
  await page.getByRole("heading", { name: "Cards of Whole class" }).waitFor();
  expect(page.url()).toContain(sessionId);
  return page;
}

/** What stands in each row's boxes, read off the sheet. */
async function marksOn(page: Page): Promise<string[]> {
  const rows = await page
    .getByRole("grid")
    .getByRole("row")
    .evaluateAll((all) =>
      all.map((row) =>
        [...row.querySelectorAll(".cards-box")].map((box) => box.textContent || ".").join(""),
      ),
    );
  // Empty boxes at the end say nothing.
  return rows.filter((row) => row !== "").map((row) => row.replace(/\.+$/, ""));
}

const box = (page: Page, student: number, number: number) =>
  page.getByRole("gridcell", { name: new RegExp(`^Student ${student}, box ${number}:`) });

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
  const page = await openCards(students);

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
  const typed = cards.map((card) => card.join("").replaceAll("-", "–"));
  expect(await marksOn(page)).toEqual(typed);
});

it("leaves a full card as it is, takes a block too large by a row and a column, and says what was left out", async () => {
  const page = await openCards(3);
  const count = await page.locator("[data-place^='0/'].cards-box").count();
  await box(page, 1, 1).focus();
  await page.keyboard.type("+".repeat(count));
  await page.keyboard.press("-");
  await page
    .getByText(`Student 1’s card has ${count} boxes, and all are filled: the “-”`)
    .waitFor();
  expect((await marksOn(page))[0]).toBe("+".repeat(count));
  await page.keyboard.press("Backspace");
  expect((await marksOn(page))[0]).toBe("+".repeat(count - 1));

  await app.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  const row = (last: string) => ["-", "+", ...Array(count - 2).fill("-"), last].join("\t");
  const cells = ["-", "what", ...Array(count - 2).fill("-"), ""].join("\t");
  const block = [row("+"), cells, row(""), row("+")].join("\r\n");
  await page.evaluate((text) => navigator.clipboard.writeText(text), `${block}\r\n`);
  await box(page, 1, 1).focus();
  await page.keyboard.press("Control+V");
  const notice = page.getByRole("alert").filter({ hasText: "Not everything in the block" });
  await notice.getByText(`Student 1: one mark past box ${count}, the last one`).waitFor();
  await notice.getByText(`Row 4 of the block, with ${count + 1} marks`).waitFor();
  await page.getByText("Box 2 holds “what”, which is not a mark.").waitFor();
  await page.getByText("1 box still to correct.").waitFor();
  const full = `–+${"–".repeat(count - 2)}`;
  expect(await marksOn(page)).toEqual([full, `–what${"–".repeat(count - 2)}`, full]);

  // The notice has been read when the next key goes down; then the box is put right.
  await box(page, 2, 2).focus();
  await page.keyboard.press("+");
  expect(await notice.count()).toBe(0);
  await page.getByText("All saved").waitFor();
  await page.reload();
  await box(page, 3, 1).waitFor();
  expect(await marksOn(page)).toEqual([full, full, full]);
});

it("starts totals from the boxes, restores them, and shows a later correction with what stood before", async () => {
  const page = await openCards(2);
  await box(page, 1, 1).focus();
  await page.keyboard.type("++-+");
  await page.getByText("All saved").waitFor();
  const useTotals = page.getByRole("button", { name: "Totals only: Student 1" });
  const totals = page.getByRole("group", { name: "Student 1" });
  await useTotals.click();
  expect(await totals.getByRole("textbox").evaluateAll(valuesOf)).toEqual(["3", "1"]);
  await page.getByRole("button", { name: "Box by box: Student 1" }).click();
  expect((await marksOn(page))[0]).toBe("++–+");

  await useTotals.click();
  await totals.getByRole("textbox").last().fill("2");
  await page.keyboard.press("Enter");
  await page.getByText("All saved").waitFor();
  await page.reload();
  await totals.waitFor();
  expect(await totals.getByRole("textbox").evaluateAll(valuesOf)).toEqual(["3", "2"]);

  // Four marks gave way to totals: each is a correction, and what stood there can be read.
  await page.getByRole("button", { name: "4 corrections" }).click();
  const history = page.getByRole("table", { name: "Corrections on the card of Student 1" });
  await history.getByText("Box 3: –, from a card").waitFor();
  expect(await history.getByText("Totals: 3 working, 2 not working").count()).toBe(4);
});

it("waits for no card of a student who was away, and saves the others' cards all the same", async () => {
  const page = await openCards(3);
  await page.getByRole("button", { name: "Absent: Student 2" }).click();
  await page.getByText("Student 2 was absent").waitFor();
  await box(page, 1, 1).focus();
  await page.keyboard.type("+-");
  // Enter goes to the next card of the stack, and there is none of Student 2.
  await page.keyboard.press("Enter");
  await page.keyboard.type("-");
  await page.getByText("All saved").waitFor();
  await page.keyboard.press("ArrowUp");
  await page.keyboard.press("+");
  await page.getByRole("alert").filter({ hasText: "Student 2 was absent" }).waitFor();
  expect(await marksOn(page)).toEqual(["+–", "", "–"]);

  await page.getByRole("link", { name: "Today" }).first().click();
  await page.getByRole("link", { name: "Review" }).first().waitFor();
  expect(await page.getByRole("link", { name: "Enter cards" }).count()).toBe(0);
});

function valuesOf(fields: (HTMLElement | SVGElement)[]): string[] {
  return fields.map((field) => (field instanceof HTMLInputElement ? field.value : ""));
}

it("lets Tab leave the sheet in a few presses, and ties what is wrong to its box", async () => {
  const page = await openCards(students);
  await box(page, 3, 2).focus();
  await page.keyboard.press("x");
  const bad = page.locator(".cards-bad");
  const problem = (await bad.getAttribute("aria-errormessage")) ?? "";
  expect(await bad.getAttribute("aria-invalid")).toBe("true");
  expect(await page.locator(`[id="${problem}"]`).textContent()).toContain("Box 2 holds “x”");
  await page.keyboard.press("Backspace");

  const isInside = () =>
    page.evaluate(() => document.activeElement?.closest("[role=grid]") !== null);
  await page.keyboard.type("+");
  let presses = 0;
  while (await isInside()) {
    await page.keyboard.press("Tab");
    presses += 1;
    expect(presses).toBeLessThan(6);
  }
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Save");
  // Back again, at the box where the hand was.
  for (let back = 0; back < presses; back += 1) await page.keyboard.press("Shift+Tab");
  expect(await page.evaluate(() => document.activeElement?.getAttribute("aria-label"))).toMatch(
    /^Student 3, box/,
  );
});
