import type { Page } from "playwright";
import { afterEach, describe, expect, it } from "vitest";
import { openStore } from "../../electron/store/store.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import type { SessionEventBody } from "../../shared/session/event.ts";
import { axeFindings } from "./support/axe.ts";
import { delayCalls } from "./support/delay-calls.ts";
import { type LoopbackApp, launchLoopback } from "./support/launch.ts";
import { button, link, makeGroup } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const folders: ReturnType<typeof temporaryFolder>[] = [];
let running: LoopbackApp | null = null;

afterEach(async () => {
  await running?.close();
  running = null;
  for (const folder of folders.splice(0)) folder.remove();
});

async function open(fill: (path: string) => void = () => {}, ...args: string[]): Promise<Page> {
  const folder = temporaryFolder();
  folders.push(folder);
  fill(folder.path);
  running = await launchLoopback({ dataFolder: folder.path, args });
  return running.page();
}

const six = ["Ash", "Birch", "Cedar", "Elm", "Fir", "Hazel"];

describe("From an empty notebook", () => {
  it("a session with six names runs after at most six clicks", async () => {
    const page = await open();
    let clicks = 0;
    const click = async (name: string) => {
      clicks += 1;
      await button(page, name).click();
    };
    /** A field that has the cursor already needs no click. */
    const type = async (label: string, text: string) => {
      const field = page.getByLabel(label);
      await field.waitFor();
      if (!(await field.evaluate((each) => each === document.activeElement))) {
        clicks += 1;
        await field.click();
      }
      await page.keyboard.insertText(text);
    };
    await type("Group name", "Room 12");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Room 12", exact: true }).waitFor();
    await type("Add students", six.join("\n"));
    await click("Add 6 students");
    await page.getByText("Hazel", { exact: true }).first().waitFor();
    await click("Start a session");
    await click("Hear the chime");
    await click("Start the session");
    await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
    expect(clicks).toBeLessThanOrEqual(6);
  });
});

describe("The times of the day", () => {
  /** At half past nine less five minutes, whatever the clock of the machine says. */
  const almost = () => new Date(new Date().setHours(9, 25, 30, 0));

  it("say what comes next, and remind without a sound until told not now", async () => {
    const page = await open();
    await page.clock.setFixedTime(almost());
    await makeGroup(page, "Room 12", ["Ash", "Birch"]);
    for (const weekend of ["Saturday", "Sunday"]) {
      await page.getByText(weekend, { exact: true }).click();
      await expect.poll(() => page.getByRole("checkbox", { name: weekend }).isChecked()).toBe(true);
    }
    await page.getByLabel("What it is").fill("Sums");
    await page.getByLabel("Starts").fill("13:00");
    await button(page, "Add").last().click();
    await page.getByText(/^1:00 PM: Sums$/).waitFor();
    await page.getByLabel("What it is").fill("Writing");
    await page.getByLabel("Starts").fill("09:30");
    await page.getByLabel("Ends (optional)").fill("09:10");
    await page.getByText(/^The end comes before the start/).waitFor();
    await page.getByLabel("Ends (optional)").fill("10:00");
    await button(page, "Add").last().click();
    await page.getByText(/^9:30 AM to 10:00 AM: Writing$/).waitFor();

    const slip = page.locator(".period-reminder");
    await slip.getByText("9:30 AM: Writing with Room 12.").waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await link(page, "Today").click();
    await page.getByText("Next: Writing at 9:30 AM").waitFor();
    await button(page, "Not now").click();
    await expect.poll(() => slip.count()).toBe(0);
    await page.reload();
    await page.getByText("Next: Writing at 9:30 AM").waitFor();
    expect(await slip.count()).toBe(0);
  });
});

describe("What waits", () => {
  it("is put aside with one press, and stays aside", async () => {
    const page = await open((path) => {
      const store = openStore({ folder: path, now: Date.now });
      try {
        const wallMs = Date.now() - 3_600_000;
        const group = store.groups.create({ name: "Room 12", target: "", isSample: false }, wallMs);
        store.students.add(group.id, ["Ash"], wallMs);
        const plan = { ...firstPlan, recording: "paper" } as const;
        store.plans.create({ groupId: group.id, name: "Cards", settings: plan }, wallMs);
        const session = store.sessions.create({
          groupId: group.id,
          kind: "seatwork",
          planName: "Cards",
          plan,
          seed: "kiwi",
          startedMs: wallMs,
          offsetMinutes: 0,
          day: new Date(wallMs).toISOString().slice(0, 10),
        });
        const happened: SessionEventBody[] = [
          { kind: "begun" },
          { kind: "announced", cue: 1 },
          { kind: "delivered", cue: 1, by: "sound", latenessMs: 0, problem: null },
          { kind: "ended", reason: "finished" },
        ];
        happened.forEach((body, index) => {
          const atMs = 1000 * index;
          store.log.append(session.id, body, { atMs, wallMs: wallMs + atMs, offsetMinutes: 0 });
        });
      } finally {
        store.close();
      }
    });
    const line = page.getByText(/^Room 12, .*: cards still to enter/);
    await line.waitFor();
    await page.getByRole("button", { name: /^Put aside: Room 12, .*cards still to enter/ }).click();
    await expect.poll(() => line.count()).toBe(0);
    await page.getByText("Nothing. Everything is entered and decided.").waitFor();
    await page.reload();
    await page.getByText("Nothing. Everything is entered and decided.").waitFor();
  });

  it("is put aside where a start was drawn and where conditions take turns", async () => {
    const page = await open((path) => {
      const store = openStore({ folder: path, now: Date.now });
      try {
        const nowMs = Date.now();
        const { id: groupId } = store.groups.create(
          { name: "Room 12", target: "", isSample: false },
          nowMs,
        );
        store.students.add(groupId, ["Ash"], nowMs);
        const today = new Date(nowMs).toISOString().slice(0, 10);
        store.phases.create(
          {
            groupId,
            studentId: null,
            kind: "intervention",
            label: "",
            startsOn: today,
            draw: { from: today, to: today, seed: "kiwi", days: [today], times: 1 },
            probes: null,
          },
          nowMs,
        );
        const names = { nameA: "With music", nameB: "Without" };
        store.alternations.create(
          { groupId, ...names, order: "ABBABAABAB", seed: "kiwi", times: 1 },
          nowMs,
        );
      } finally {
        store.close();
      }
    });
    const lines = [
      page.getByText(/^Room 12: the program begins today, as it was drawn/),
      page.getByText(/^Room 12: two conditions take turns/),
    ];
    for (const line of lines) await line.waitFor();
    await button(page, /^Put aside: Room 12: the program begins today/).click();
    await expect.poll(() => lines[0]?.count()).toBe(0);
    expect(await lines[1]?.count()).toBe(1);
    await button(page, /^Put aside: Room 12: two conditions take turns/).click();
    await page.getByText("Nothing. Everything is entered and decided.").waitFor();
    await page.reload();
    await page.getByText("Nothing. Everything is entered and decided.").waitFor();
  });
});

describe("A group's card", () => {
  it("keeps its presses where they are while the trend is still computed", async () => {
    const page = await open(() => {}, "--sample");
    await page.getByText(/Since the program began/).waitFor();
    await page.addInitScript(delayCalls, { word: "counts", ms: 500 });
    await page.addInitScript(() => {
      const places = new Set<string>();
      Object.assign(window, { places });
      const look = () => {
        for (const each of document.querySelectorAll(".today-group > .button, .today-ways > a")) {
          const { x, y } = each.getBoundingClientRect();
          places.add(`${each.textContent}: ${x}, ${y}`);
        }
        requestAnimationFrame(look);
      };
      look();
    });
    await page.reload();
    await page.getByText(/Since the program began/).waitFor();
    const places = await page.evaluate(() => [...Reflect.get(window, "places")]);
    // Start and the four ways, each seen at one place only.
    expect(places).toHaveLength(5);
  });
});
