import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { openStore } from "../../electron/store/store.ts";
import { sessionSchedule } from "../../shared/schedule/session-schedule.ts";
import { axeFindings } from "./support/axe.ts";
import { oneApp } from "./support/one-app.ts";
import { devices, join, openSeats } from "./support/seats.ts";
import { silentClass } from "./support/silent-class.ts";
import { appearsMs, button, link, openPlanMore } from "./support/steps.ts";

const app = oneApp();
const device = devices();

/** A phone that has joined. */
async function joined(address: string, code: string): Promise<Page> {
  const seat = await device();
  await join(seat, address, code);
  return seat;
}

/** Answers each cue as it comes, as a quick child does. */
async function answerAll(seat: Page): Promise<void> {
  const yes = seat.getByRole("button", { name: "Yes, I was working" });
  const isOver = seat.getByText("Done. Thank you.");
  for (;;) {
    await yes.or(isOver).first().waitFor({ timeout: 60_000 });
    if (await isOver.isVisible()) return;
    await seat.waitForTimeout(650);
    await yes.click({ timeout: 2_000 }).catch(() => undefined);
    await seat.waitForTimeout(300);
  }
}

describe("Own cues", () => {
  it("ask three students on their phones and a fourth by a touch, and no screen of the class knows when", async () => {
    const names = ["Fern", "Robin", "Hazel", "Ash"];
    const room = silentClass(app.folder(), names, {
      plan: {
        law: "exponential",
        cueing: "silent",
        meanSeconds: 60,
        shortestGapSeconds: 40,
        lengthSeconds: 240,
        fewestCues: 2,
      },
    });
    const page = await app.open("--speed", "10", "--seats-port", "0");
    // The plan's fourth way.
    await page.goto(new URL(`/groups/${room.groupId}/plans/${room.planId}`, page.url()).href);
    await openPlanMore(page);
    await page.getByText("each student at their own moments, on their own device").click();
    await page.getByText("each student gets a quiet sign on their own device").waitFor();
    await button(page, "Save").first().click();
    await page.waitForTimeout(appearsMs);
    const { address, codes } = await openSeats(page);
    const seats: Page[] = [];
    for (const number of [1, 2, 3]) {
      seats.push(await joined(address, codes.get(number) ?? ""));
    }
    await page.locator(".seats-state-joined").nth(2).waitFor();
    await link(page, "Room 12").first().click();
    await button(page, "Start a session").click();
    // Who has no seat is said, and can have a key.
    await page.getByText("3 have joined with a seat, 1 has not.").waitFor();
    await page.getByText("Ash: an adult touches the desk").click();
    await link(page, "Print the cue times of Ash").waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await button(page, "Start the session").click();
    await page.getByText("Each student is asked alone, and nobody sees when.").waitFor();
    expect(await button(page, "Skip next cue").count()).toBe(0);
    const asked = Promise.all(seats.map(answerAll));
    // Whatever the strip and the board say stays as it is when somebody is asked.
    await button(page, "Class board").click();
    await page.locator(".board").waitFor();
    const words = await page.locator(".board").textContent();
    for (let look = 0; look < 20; look += 1) {
      expect(await page.locator(".board").textContent()).toBe(words);
      expect(await page.locator(".board-asks").count()).toBe(0);
      expect(await page.locator(".spot").count()).toBe(0);
      await page.waitForTimeout(200);
    }
    await button(page, "Teacher’s view").click();
    await asked;
    await page
      .getByRole("heading", { name: /session/i })
      .first()
      .waitFor();
    await app.close();
    const store = openStore({ folder: app.folder(), now: Date.now });
    const [session] = store.sessions.list(null, 1);
    if (session === undefined) throw new Error("no session");
    const log = store.log.read(session.id, 0).map(({ body }) => body);
    store.close();
    for (const [studentId, name] of room.nameOf) {
      const key = sessionSchedule(session.plan, session.seed, { studentId }).cues;
      const came = log.filter((body) => body.kind === "delivered" && body.studentId === studentId);
      expect([name, came.length]).toEqual([name, key.length]);
      const marks = log.filter((body) => body.kind === "mark" && body.studentId === studentId);
      expect(marks.length > 0).toBe(name !== "Ash");
    }
  }, 120_000);
});
