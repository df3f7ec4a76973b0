import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openDesktop } from "../../electron/host/desktop.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import { addStudents } from "../setup/add-students.ts";
import { manualClock } from "../support/manual-clock.ts";
import { launchLoopback } from "./support/launch.ts";
import { temporaryFolder } from "./support/temporary-folder.ts";

// Three drawings of an invented student are kept as somebody looked them over. Where one is to change, run
// with FIGURES=write, look at the new one, and keep it.

const caller = { clientId: "test", signal: new AbortController().signal };
const mondayMs = Date.UTC(2026, 2, 2, 8);
const dayMs = 86_400_000;

/** Five weeks, two of baseline as an observer saw it and three of program whose rates rise, one day missed. */
function rows() {
  return Array.from({ length: 25 }, (_, at) => at)
    .filter((at) => at !== 12)
    .map((at) => {
      const isBaseline = at < 10;
      const on = isBaseline ? 4 + (at % 3) : Math.min(10, 6 + Math.floor((at - 10) / 4) + (at % 2));
      const startedAt = new Date(mondayMs + (Math.floor(at / 5) * 7 + (at % 5)) * dayMs);
      return {
        student: "Pine",
        startedAt: startedAt.toISOString(),
        source: isBaseline ? ("observer" as const) : ("self" as const),
        on,
        off: 10 - on,
        missing: 0,
        phase: isBaseline ? "baseline" : "intervention",
        subject: "",
        work: null,
      };
    });
}

describe("drawings that were looked over", () => {
  const folder = temporaryFolder();
  let app: Awaited<ReturnType<typeof launchLoopback>>;
  let page: Page;
  let groupId: string;
  let planId: string;

  beforeAll(async () => {
    const clock = manualClock({ wallMs: mondayMs + 60 * dayMs });
    const desktop = await openDesktop({
      folder: folder.path,
      clock,
      host: "loopback",
      version: "0",
    });
    const { groups, plans, transfer } = desktop.handlers;
    groupId = (await groups.create({ name: "Room 4", target: "" }, caller)).id;
    await addStudents(desktop.handlers, groupId, ["Pine"], caller);
    planId = (await plans.create({ groupId, name: "Usual", settings: firstPlan }, caller)).id;
    await transfer.importSessions({ groupId, rows: rows() }, caller);
    await desktop.close();
    app = await launchLoopback({ dataFolder: folder.path });
    page = await app.page();
    await page.setViewportSize({ width: 1366, height: 768 });
    await page.goto(new URL(`/progress/${groupId}`, page.url()).href);
    await page.getByRole("link", { name: "Pine", exact: true }).click();
  });
  afterAll(async () => {
    await app.close();
    folder.remove();
  });

  /** The drawing of a figure, one mark a line, its numbers to a tenth. */
  async function drawing(title: RegExp): Promise<string> {
    const figure = page.getByRole("figure", { name: title });
    await figure.locator("svg.chart").waitFor();
    const html = await figure.locator("svg.chart").evaluate((svg) => svg.outerHTML);
    return `${html
      .replace(/(\d+\.\d{2,})/g, (text) => String(Math.round(Number(text) * 10) / 10))
      .replaceAll("><", ">\n<")}\n`;
  }

  function expectAsKept(name: string, drawn: string): void {
    const path = join(import.meta.dirname, "figures", `${name}.svg`);
    if (process.env.FIGURES === "write") writeFileSync(path, drawn);
    expect(existsSync(path), `there is no ${name}.svg yet`).toBe(true);
    expect(drawn).toBe(readFileSync(path, "utf8"));
  }

  it("a student's sessions: points by source, levels, phases parted", async () => {
    expectAsKept("sessions", await drawing(/^On-task rate of Pine, session by session/));
  });

  it("a student's weeks, with their intervals", async () => {
    expectAsKept("weeks", await drawing(/^School weeks/));
  });

  it("what a listener could guess of the usual plan", async () => {
    await page.goto(new URL(`/groups/${groupId}/plans/${planId}`, page.url()).href);
    await page.getByText("Could a student guess when the next cue comes?", { exact: true }).click();
    expectAsKept("guess", await drawing(/^What a student could guess/));
  });
});
