import { setTimeout as pause } from "node:timers/promises";
import type { Page } from "playwright";
import { afterEach, beforeEach, expect } from "vitest";
import { openStore } from "../../../electron/store/store.ts";
import { firstPlan, type PlanSettings } from "../../../shared/plan/plan.ts";
import { type SettledCue, settledCues } from "./settled-cues.ts";
import { button } from "./steps.ts";
import { temporaryFolder } from "./temporary-folder.ts";

/** The app's arguments: two seconds of a session in a real one. */
export const args = ["--speed", "2"];
/** A cue every five real seconds: each is written off, or sounds, before the next is due. */
const everyTen = { law: "fixed", meanSeconds: 10, shortestGapSeconds: 0 } as const;
export const oneCueMs = 5_000;

/** A class of two for each test of a file, in an app that is killed after it: a session that runs would ask. */
export function soundingClass() {
  let temporary: ReturnType<typeof temporaryFolder>;
  let running: { kill(): Promise<unknown> } | null = null;

  beforeEach(() => {
    temporary = temporaryFolder();
  });

  afterEach(async () => {
    await running?.kill();
    running = null;
    temporary.remove();
  });

  return {
    folder: () => temporary.path,

    /** Puts the class, whose cues sound, into the data folder, and gives the folder. */
    make(plan: Partial<PlanSettings> = {}): string {
      const store = openStore({ folder: temporary.path, now: Date.now });
      try {
        const nowMs = Date.now() - 60_000;
        const group = store.groups.create({ name: "Room 12", target: "", isSample: false }, nowMs);
        store.students.add(group.id, ["Ash", "Birch"], nowMs);
        const ways = { cueing: "sound", recording: "paper" } as const;
        const own = { fewestCues: 0, lengthSeconds: 600 };
        const settings = { ...firstPlan, ...everyTen, ...own, ...ways, ...plan };
        store.plans.create({ groupId: group.id, name: "Every ten", settings }, nowMs);
        store.settings.save({ soundChecked: true });
      } finally {
        store.close();
      }
      return temporary.path;
    },

    /** What is killed after the test. */
    runs(app: { kill(): Promise<unknown> }): void {
      running = app;
    },

    /** Ends the app, and says what its log has of each cue that is settled. */
    async settled(): Promise<SettledCue[]> {
      await running?.kill();
      running = null;
      return settledCues(temporary.path);
    },

    /** The same without numbers and times. */
    async logged(): Promise<string[]> {
      return (await this.settled()).map(({ how }) => how);
    },
  };
}

/**
 * Times in which a page is there and nothing happens to it: each cue in them has to sound. One that is due
 * while pages come and go may be shown instead, or reach nobody, which the log then says.
 */
export function quietTimes() {
  /** A page that has just come loads its chime, and other pages may come first, in ms. */
  const settlingMs = 2_500;
  const times: { readonly fromMs: number; readonly toMs: number }[] = [];
  return {
    /** Waits until at least one cue has come in quiet. */
    async pass() {
      await pause(settlingMs);
      const fromMs = Date.now();
      await pause(oneCueMs + 500);
      times.push({ fromMs, toMs: Date.now() });
    },
    /** What the log must say: one verdict a cue, and in each of the quiet times cues that sounded, nothing else. */
    hold(cues: readonly SettledCue[]) {
      const numbers = cues.map(({ cue }) => cue);
      expect(numbers).toEqual([...new Set(numbers)]);
      for (const { fromMs, toMs } of times) {
        const within = cues.filter(({ atMs }) => atMs > fromMs && atMs < toMs);
        expect([...new Set(within.map(({ how }) => how))]).toEqual(["sound"]);
      }
    },
  };
}

/** Starts the session; returns its page's address. */
export async function startSession(page: Page): Promise<string> {
  await button(page, "Start a session with Room 12").click();
  await button(page, "Start the session").click();
  await page.waitForURL(/\/session\//);
  await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
  return page.url();
}
