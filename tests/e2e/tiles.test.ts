import type { Page } from "playwright";
import { expect, it } from "vitest";
import { openStore } from "../../electron/store/store.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import { oneApp } from "./support/one-app.ts";

const app = oneApp();

/** Session seconds in a real one: a cue every fifteen seconds under the plan below, five of them "in time". */
const speed = 4;
const names = ["Ash", "Birch", "Cedar", "Dill"] as const;
const pictures = ["kite", "leaf", "shell", "star"];

/** A group of four in two rows, whose cues come each minute without sound. */
function classOfFour(path: string): Map<string, string> {
  const store = openStore({ folder: path, now: Date.now });
  try {
    const nowMs = Date.now() - 60_000;
    const group = store.groups.create({ name: "Room 12", target: "", isSample: false }, nowMs);
    const students = store.students.add(group.id, names, nowMs);
    students.forEach(({ id }, index) => {
      store.students.update(id, { picture: pictures[index] ?? null });
    });
    const settings = { ...firstPlan, law: "fixed", meanSeconds: 60, cueing: "silent" } as const;
    store.plans.create({ groupId: group.id, name: "Each minute", settings }, nowMs);
    store.settings.save({ seatsInRow: { [group.id]: 2 } });
    return new Map(students.map(({ id, name }) => [id, name]));
  } finally {
    store.close();
  }
}

const button = (page: Page, name: string) => page.getByRole("button", { name, exact: true });

/** What the log of the newest session says of students, in order. */
function logged(path: string, nameOf: ReadonlyMap<string, string>): unknown[] {
  const store = openStore({ folder: path, now: Date.now });
  try {
    const [session] = store.sessions.list(null, 1);
    return store.log.read(session?.id ?? "", 0).flatMap(({ body }) => {
      if (body.kind === "set-aside" || body.kind === "back") {
        return [[body.kind, nameOf.get(body.studentId)]];
      }
      if (body.kind !== "mark") return [];
      return [[body.value, nameOf.get(body.studentId), body.cue, body.late ? "late" : "in time"]];
    });
  } finally {
    store.close();
  }
}

it("Students record at one screen: away and back, late, set aside, by picture, in the rows of the room", async () => {
  const nameOf = classOfFour(app.folder());
  const page = await app.open("--speed", String(speed));
  await button(page, "Start a session with Room 12").click();
  await page.waitForURL(/\/session\//);
  const tiles = await app.another("/tiles");

  // Two seats in a row.
  await tiles.getByRole("group", { name: "Dill", exact: true }).waitFor();
  const tops = await Promise.all(
    names.map(async (name) => {
      const box = await tiles.getByRole("group", { name, exact: true }).boundingBox();
      return Math.round(box?.y ?? -1);
    }),
  );
  expect(tops[0]).toBe(tops[1]);
  expect(tops[2]).toBe(tops[3]);
  expect(tops[2] ?? 0).toBeGreaterThan(tops[0] ?? 0);

  await tiles.getByText("Was I working just now?").waitFor({ timeout: 30_000 });
  const asked = Date.now();

  // Away is no mark: it shows, can be taken back, and lasts until the next cue.
  await button(tiles, "Ash: I was away").click();
  await tiles.getByText("Away", { exact: true }).waitFor();
  await button(tiles, "Ash: undo").click();
  await button(tiles, "Ash: I was away").click();
  await button(tiles, "Birch: yes, I was working").click();
  await tiles.getByText("Recorded").waitFor();

  // Every target of a student is at least 64 pixels high and wide.
  const sizes = await tiles
    .locator(".tile button")
    .evaluateAll((all) => all.map((each) => each.getBoundingClientRect()));
  for (const { width, height } of sizes) {
    expect(Math.min(width, height)).toBeGreaterThanOrEqual(64);
  }

  // Without names for the eye; whoever hears the screen still knows whose tile it is.
  await tiles.getByText("Pictures only").click();
  const shown = await tiles.getByText("Cedar", { exact: true }).boundingBox();
  expect(shown?.width ?? 0).toBeLessThanOrEqual(1);

  // Set aside and brought back.
  await tiles.getByText("Set students aside").click();
  await button(tiles, "Set aside: Dill").click();
  await button(tiles, "Bring back: Dill").waitFor();
  await tiles.getByText("Set students aside").click();
  await tiles.getByText("Not here").waitFor();
  await tiles.getByText("Set students aside").click();
  await button(tiles, "Bring back: Dill").click();
  await button(tiles, "Set aside: Dill").waitFor();
  await tiles.getByText("Set students aside").click();

  // A mark later than 20 seconds of session time, before the next cue, is kept as late.
  await tiles.waitForTimeout(Math.max(0, asked + 22_000 / speed - Date.now()));
  await button(tiles, "Cedar: no, I was not working").click();
  await button(tiles, "Cedar: undo").waitFor();

  // The next cue asks everybody anew.
  await button(tiles, "Birch: undo").waitFor({ state: "hidden", timeout: 30_000 });
  await button(tiles, "Ash: yes, I was working").click();
  await button(tiles, "Ash: undo").waitFor();

  await button(page, "End").click();
  await button(page, "End it").click();
  await page.getByRole("heading", { name: "The session is over" }).waitFor();
  await app.close();
  expect(logged(app.folder(), nameOf)).toEqual([
    ["on", "Birch", 1, "in time"],
    ["set-aside", "Dill"],
    ["back", "Dill"],
    ["off", "Cedar", 1, "late"],
    ["on", "Ash", 2, "in time"],
  ]);
});
