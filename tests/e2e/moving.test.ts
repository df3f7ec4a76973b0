import type { Page } from "playwright";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openStore } from "../../electron/store/store.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import { launchLoopback } from "./support/launch.ts";
import { button, link, makeGroup } from "./support/steps.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

const folder = temporaryFolder();
let app: Awaited<ReturnType<typeof launchLoopback>>;
let page: Page;

beforeAll(async () => {
  app = await launchLoopback({ dataFolder: folder.path });
  page = await app.page();
});

afterAll(async () => {
  await app.close();
  folder.remove();
});

const menuOf = async (name: string, entry: string) => {
  await button(page, `More for ${name}`).click();
  await page.getByRole("menuitem", { name: entry }).click();
};

it("One student has a hold goal and a target that differ from the group’s, and moves with them", async () => {
  await makeGroup(page, "Room 4", ["Ash", "Birch"]);
  // Pictures are handed out without being asked for.
  await expect.poll(() => page.locator(".groups-student .picture").count()).toBe(2);
  await menuOf("Ash", "Change");
  const dialog = page.getByRole("dialog", { name: /Ash/ });
  await dialog.getByText(/^A hold goal of their own, instead of the group’s 80%/).click();
  await dialog.getByLabel("Own hold goal").fill("60");
  await page.keyboard.press("Tab");
  await dialog.getByLabel("A target of their own").fill("I ask when I am stuck.");
  await dialog.getByRole("button", { name: "Save" }).click();
  await page.getByText("Own hold goal: 60%").waitFor();
  await page.getByText("I ask when I am stuck.").waitFor();

  await link(page, "Groups").first().click();
  await page.getByRole("heading", { name: "Groups", exact: true }).waitFor();
  await makeGroup(page, "Room 5", ["Cedar", "Elm"]);
  await link(page, "Groups").first().click();
  await page.getByRole("heading", { name: "Groups", exact: true }).waitFor();
  await page.getByRole("link", { name: "Room 4", exact: true }).click();
  await page.getByRole("heading", { name: "Room 4", exact: true }).waitFor();
  await menuOf("Ash", "Move to another group");
  const moving = page.getByRole("dialog", { name: "Move Ash to another group" });
  await moving.getByText("Past sessions stay in this group’s numbers.").waitFor();
  await moving.getByRole("button", { name: "Move", exact: true }).click();
  await moving.getByText("Ash is now in Room 5.").waitFor();
  await moving.getByRole("link", { name: "Open that group" }).click();
  await page.getByRole("heading", { name: "Room 5", exact: true }).waitFor();
  await page.getByText("Own hold goal: 60%").waitFor();
  await link(page, "Ash").first().click();
  await page.getByRole("heading", { name: "Ash", exact: true }).waitFor();
});

it("a plan is copied, and the group then has several", async () => {
  await link(page, "Groups").first().click();
  await page.getByRole("heading", { name: "Groups", exact: true }).waitFor();
  await page.getByRole("link", { name: "Room 4", exact: true }).click();
  await page.getByRole("heading", { name: "Room 4", exact: true }).waitFor();
  await menuOf("First plan", "Copy this plan");
  await page.getByRole("link", { name: "First plan, copy", exact: true }).waitFor();
  await link(page, "Today").click();
  await page
    .getByRole("article", { name: "Room 4" })
    .getByRole("button", { name: /Plan/ })
    .waitFor();
});

describe("The papers of a group with one who moved in", () => {
  const school = temporaryFolder();
  const dayMs = 86_400_000;
  const dayAgo = (days: number) => new Date(Date.now() - days * dayMs).toISOString().slice(0, 10);
  const place = { groupId: "", ashId: "" };
  let shown: Awaited<ReturnType<typeof launchLoopback>>;
  let paper: Page;

  beforeAll(async () => {
    const store = openStore({ folder: school.path, now: Date.now });
    try {
      const nowMs = Date.now();
      const made = (name: string) =>
        store.groups.create({ name, target: "", isSample: false }, nowMs - 20 * dayMs).id;
      const [before, now] = [made("Room 4"), made("Room 5")];
      const [ash] = store.students.add(before, ["Ash"], nowMs - 20 * dayMs);
      const [elm] = store.students.add(now, ["Elm"], nowMs - 20 * dayMs);
      if (ash === undefined || elm === undefined) throw new Error("Nobody was added");
      const held = (groupId: string, daysAgo: number, studentIds: readonly string[]) => {
        const wallMs = nowMs - daysAgo * dayMs;
        const { id } = store.sessions.create({
          groupId,
          kind: "seatwork",
          planName: "First plan",
          plan: firstPlan,
          seed: "kiwi",
          startedMs: wallMs,
          offsetMinutes: 0,
          day: dayAgo(daysAgo),
        });
        const cue = { cue: 1, by: "sound", latenessMs: 0, problem: null } as const;
        const mark = { kind: "mark", cue: 1, value: "on", way: "screen", late: false } as const;
        store.log.appendAll(
          id,
          [
            { kind: "begun" },
            { kind: "delivered", ...cue },
            ...studentIds.map((studentId) => ({ ...mark, studentId })),
            { kind: "ended", reason: "finished" },
          ],
          { atMs: 0, wallMs, offsetMinutes: 0 },
        );
      };
      held(before, 8, [ash.id]);
      store.students.move(ash.id, now, nowMs - 4 * dayMs);
      held(now, 1, [ash.id, elm.id]);
      store.terms.add({ name: "Now", firstDay: dayAgo(3), lastDay: dayAgo(-30) }, nowMs);
      Object.assign(place, { groupId: now, ashId: ash.id });
    } finally {
      store.close();
    }
    shown = await launchLoopback({ dataFolder: school.path });
    paper = await shown.page();
  });

  afterAll(async () => {
    await shown.close();
    school.remove();
  });

  const open = (address: string) => paper.goto(new URL(address, paper.url()).href);

  it("tell of the time before as well, for child and family, and nothing of it for the others", async () => {
    await open(`/print/own/${place.groupId}`);
    const sessionsOf = (name: string) =>
      paper.getByRole("article", { name: `${name}’s own record` }).locator(".own-sessions li");
    await expect.poll(() => sessionsOf("Ash").count()).toBe(2);
    expect(await sessionsOf("Elm").count()).toBe(1);
    await open(`/print/family/${place.groupId}`);
    const told = paper.locator(".family");
    await expect.poll(() => told.count()).toBe(2);
    const leads = await paper.locator(".family-lead").allTextContents();
    const of = (name: string) => leads.find((lead) => lead.includes(name)) ?? "";
    expect(of("Ash")).toContain("2");
    expect(of("Elm")).not.toContain("2");
  });

  it("go by the school's term in the report for a meeting", async () => {
    await open(`/print/report/${place.groupId}/${place.ashId}`);
    const spoken = (days: number) =>
      new Intl.DateTimeFormat("en-US", { month: "short", day: "numeric", timeZone: "UTC" }).format(
        Date.now() - days * dayMs,
      );
    // Eight days without a session end no term by themselves.
    await paper.getByText("Sessions from").first().waitFor();
    const said = await paper
      .getByText(/Sessions from .* to /)
      .first()
      .textContent();
    expect(said).toContain(`from ${spoken(3)}`);

    await paper.getByText("All", { exact: true }).click();
    await paper
      .getByText(new RegExp(`Sessions from ${spoken(8)}`))
      .first()
      .waitFor();
  });
});
