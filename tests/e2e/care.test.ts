import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright";
import { expect, it } from "vitest";
import { databaseName } from "../../electron/store/file/backup.ts";
import { openStore } from "../../electron/store/store.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import { oneApp } from "./support/one-app.ts";
import { silentClass } from "./support/silent-class.ts";
import { button } from "./support/steps.ts";

const app = oneApp();
const names = ["Ash", "Birch", "Cedar"];
const open = async (page: Page, path: string) => page.goto(new URL(path, page.url()).href);

/** A session of the class that was held today, with one mark and a note that only it has. */
function held(folder: string): { readonly groupId: string; readonly sessionId: string } {
  const { groupId } = silentClass(folder, names);
  const store = openStore({ folder, now: Date.now });
  const wallMs = Date.now() - 60_000;
  const student = store.students.list(groupId, false).find(({ name }) => name === "Ash");
  const { id } = store.sessions.create({
    groupId,
    kind: "seatwork",
    planName: "Every forty",
    plan: firstPlan,
    seed: "held",
    startedMs: wallMs,
    offsetMinutes: 0,
    day: new Date(wallMs).toISOString().slice(0, 10),
  });
  const mark = { studentId: student?.id ?? "", cue: 1, way: "screen", late: false } as const;
  store.log.appendAll(
    id,
    [
      { kind: "begun" },
      { kind: "announced", cue: 1 },
      { kind: "delivered", cue: 1, by: "sound", latenessMs: 0, problem: null },
      { kind: "mark", ...mark, value: "on" },
      { kind: "note", text: "zebrafinch" },
      { kind: "ended", reason: "teacher" },
    ],
    { atMs: 0, wallMs, offsetMinutes: 0 },
  );
  store.close();
  return { groupId, sessionId: id };
}

it("A run that only reads says so, shows everything, and starts no session", async () => {
  const { groupId, sessionId } = held(app.folder());
  // A folder in the place of the log's index: whoever runs this, SQLite can write nothing here.
  mkdirSync(join(app.folder(), `${databaseName}-shm`));
  const page = await app.open();
  await page.getByText("no session can be started").waitFor();
  const start = button(page, "Start a session with Room 12");
  await expect.poll(() => start.isDisabled()).toBe(true);
  // A press all the same, as of an assistive tool, opens no sheet.
  await start.dispatchEvent("click");
  expect(await page.getByRole("dialog").count()).toBe(0);

  await open(page, `/groups/${groupId}`);
  await page.getByText("no session can be started").waitFor();
  await expect.poll(() => button(page, "Start a session").isDisabled()).toBe(true);
  for (const [way, press] of [
    ["practice", "Start the practice"],
    ["observe", "Start watching"],
  ] as const) {
    await open(page, `/groups/${groupId}/${way}`);
    await button(page, press).waitFor();
    await expect.poll(() => button(page, press).isDisabled(), { message: way }).toBe(true);
  }

  // What is there can be looked at.
  await open(page, `/session/${sessionId}`);
  await page.getByRole("row", { name: /^Ash 100%/ }).waitFor();

  // What would write is refused in one sentence.
  await open(page, "/groups");
  await page.getByLabel("Group name").fill("Room 13");
  await button(page, "Make this group").click();
  await page.getByText("Pebblechime is open for reading only").waitFor();
  expect(await page.getByRole("link", { name: "Room 13" }).count()).toBe(0);
});

it("A session with a damaged entry says so wherever it is looked for, and comes back without it", async () => {
  const { groupId, sessionId } = held(app.folder());
  const path = join(app.folder(), databaseName);
  const bytes = readFileSync(path);
  const at = bytes.lastIndexOf('"zebrafinch"');
  expect(at).toBeGreaterThan(0);
  bytes.write("#", at);
  writeFileSync(path, bytes);
  rmSync(`${path}-wal`, { force: true });

  const page = await app.open();
  await page.getByRole("link", { name: "Part of the record is damaged" }).waitFor();
  await page.getByText(/^Room 12, .+ one entry of this session cannot be read/).waitFor();
  expect(await page.getByText("Nothing. Everything is entered and decided.").isVisible()).toBe(
    false,
  );
  await open(page, `/session/${sessionId}`);
  await page.getByText("Part of this session’s record is damaged").waitFor();
  await open(page, `/progress/${groupId}`);
  await page.getByText("one entry of this session cannot be read").waitFor();
  expect(await page.getByText("There has been no session yet").count()).toBe(0);

  await page.getByRole("main").getByRole("link", { name: "Settings" }).click();
  await page.getByText("Continue without it", { exact: true }).click();
  await open(page, `/session/${sessionId}`);
  await page.getByRole("row", { name: /^Ash 100%/ }).waitFor();
});

it("A session that was cut off is not called a running one", async () => {
  silentClass(app.folder(), names);
  const page = await app.open();
  await button(page, "Start a session with Room 12").click();
  await button(page, "Start the session").click();
  await page.getByRole("link", { name: "Session running" }).waitFor();
  await app.loseHost();
  await app.close();
  const again = await app.open();
  await again.getByRole("link", { name: "Session cut off" }).waitFor();
  expect(await again.getByRole("link", { name: "Session running" }).count()).toBe(0);
  await button(again, "Resume").click();
  await again.getByRole("link", { name: "Session running" }).waitFor();
});
