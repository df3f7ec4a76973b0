import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { analyse } from "../../../../electron/commands/analyse.ts";
import { CommandError } from "../../../../electron/commands/command.ts";
import { dayNumber, dayText } from "../../../../shared/calendar/calendar.ts";

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "analyse-"));
});
afterAll(() => rm(folder, { recursive: true }));

const columns = "student,started_at,phase,source,on_task,off_task,no_mark";

const run = (rows: readonly string[], ...options: string[]): Promise<string> =>
  runFile([columns, ...rows], ...options);

async function runFile(lines: readonly string[], ...options: string[]): Promise<string> {
  const path = join(folder, "sessions.csv");
  await writeFile(path, lines.join("\n"));
  let written = "";
  await analyse.run([path, ...options], {
    write(part) {
      written += part;
    },
  });
  return written;
}

/** The names of all keys, at every depth. */
function keysIn(value: unknown): string[] {
  if (Array.isArray(value)) return value.flatMap(keysIn);
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => [key, ...keysIn(inner)]);
}

async function failure(rows: readonly string[], ...options: string[]): Promise<CommandError> {
  const error = await run(rows, ...options).catch((thrown: unknown) => thrown);
  if (error instanceof CommandError) return error;
  throw new Error(`expected a refusal, got ${String(error)}`);
}

// Worked example E1 (see tests/reference/phases): A = 40 55 45 50 35, B = 60 50 75 80 70 85 80 percent.
const e1 = [
  [40, 55, 45, 50, 35].map((on, i) => row(2 + i, "baseline", on)),
  [60, 50, 75, 80, 70, 85, 80].map((on, i) => row(9 + i, "intervention", on)),
].flat();

function row(day: number, phase: string, on: number, source = "self"): string {
  const date = `2026-03-${String(day).padStart(2, "0")}`;
  return `Lark,${date}T09:15:00+01:00,${phase},${source},${on},${100 - on},0`;
}

describe("a whole district in one file", () => {
  /** Rows of so many students, whose marks follow from the numbers of student and session alone. */
  function* rowsOf(students: number, sessions: number) {
    for (let student = 0; student < students; student += 1)
      for (let at = 0; at < sessions; at += 1) {
        const day = dayText(dayNumber("2025-09-01") + 7 * Math.floor(at / 5) + (at % 5));
        const on = (student * 3 + at) % 11;
        yield `S${student},${day}T09:00:00+01:00,,self,${on},${10 - on},1`;
      }
  }

  it.each([
    [400, 20],
    [400, 50],
  ])("is read to the end, every mark of it: %i students, %i sessions each", async (size, each) => {
    const { students, group } = JSON.parse(await run([...rowsOf(size, each)], "--json"));
    expect(students).toHaveLength(size);
    let total = 0;
    for (const { student, self, reading } of students) {
      const number = Number(student.slice(1));
      const on = Array.from({ length: each }, (_, at) => (number * 3 + at) % 11);
      const sum = on.reduce((before, marks) => before + marks, 0);
      total += sum;
      expect(self.counts, student).toEqual({ on: sum, off: 10 * each - sum, missing: each });
      expect(self.response, student).toMatchObject({ marks: 10 * each, cues: 11 * each });
      expect(self.sessions, student).toHaveLength(each);
      expect(reading.trend, student).toBeDefined();
    }
    const cues = size * each;
    expect(group.self.counts).toEqual({ on: total, off: 10 * cues - total, missing: cues });
    expect(group.reading.trend).toBeDefined();
  });
});

describe("cli analyse --json", () => {
  it("gives worked example E1's phase measures (computed with SciPy 1.10.1)", async () => {
    const { students } = JSON.parse(await run(e1, "--json"));
    expect(students).toHaveLength(1);
    const { self, observer, acrossSources } = students[0];
    expect([observer, acrossSources]).toEqual([null, null]);
    expect(self.phases.caution).toBe("one-change-cannot-show-cause");
    const [comparison] = self.phases.comparisons;
    expect(comparison.nap.value).toBeCloseTo(0.957143, 6);
    expect(comparison.tau.value).toBeCloseTo(0.914286, 6);
    expect(comparison.baselineCorrectedTau.value).toBeCloseTo(0.676123, 6);
    expect(comparison.pnd.value).toBeCloseTo(6 / 7, 10);
    expect(comparison.logOddsRatio.value).toBeCloseTo(1.116961, 6);
    expect(comparison.dualCriterion.conservative.above).toBe(7);
    expect(self.counts).toEqual({ on: 725, off: 475, missing: 0 });
  });

  it("explains every key, however deep it lies", async () => {
    // All that can be computed: two students with work, both sources, two phases of four weeks, a drawn start.
    const weekdays = Array.from({ length: 40 }, (_, at) => at + 1).filter((at) => at % 7 < 5);
    const full = ["A", "B"].flatMap((name) =>
      weekdays.flatMap((at) =>
        ["self", "observer"].map((source) => {
          const moment = new Date(Date.UTC(2026, 1, 1 + at, 8)).toISOString();
          const on = (at < 20 ? 4 : 12) + (at % 3);
          const phase = at < 20 ? "baseline" : "intervention";
          return `${name},${moment},${phase},${source},${on},${20 - on},${at % 2},maths,10,8,7`;
        }),
      ),
    );
    const drawn = ["--drawn-from", "2026-02-16,2026-02-21,2026-02-23", "--drawn", "2026-02-21"];
    const lines = [`${columns},subject,assigned,completed,correct`, ...full];
    const { about, students, group } = JSON.parse(await runFile(lines, "--json", ...drawn));
    expect(students[0].self.phases.randomization.kind).toBe("computed");
    expect(group.self.phases.randomization.kind).toBe("computed");
    const explained = Object.entries(about).flat().join(" ");
    const words = new Set(explained.match(/\w+/g));
    const unexplained = keysIn({ student: students[0], group }).filter((key) => !words.has(key));
    expect(unexplained).toEqual([]);
  });

  it("keeps sources apart, and marks a comparison across them", async () => {
    const rows = [
      row(2, "baseline", 40, "observer"),
      row(3, "baseline", 50, "observer"),
      row(9, "intervention", 80),
      row(9, "intervention", 60, "observer"),
      row(16, "fading 1", 90),
    ];
    const [{ self, observer, acrossSources }] = JSON.parse(await run(rows, "--json")).students;
    expect(self.counts).toMatchObject({ on: 170, off: 30 });
    expect(observer.counts).toMatchObject({ on: 150, off: 150 });
    expect(acrossSources.phases.phases.map(({ source }: { source: string }) => source)).toEqual([
      "observer",
      "observer",
      "self",
    ]);
    expect(acrossSources.phases.comparisons[1].sourcesDiffer).toBe(true);
  });

  it("runs the randomization test when the start was drawn", async () => {
    const drawn = [
      "--drawn-from",
      "2026-03-06,2026-03-09,2026-03-10,2026-03-11",
      "--drawn",
      "2026-03-09",
    ];
    const [{ self }] = JSON.parse(await run(e1, "--json", ...drawn)).students;
    // Differences by hand: from the 6th 22.4, the 9th 26.43, the 10th 25.83, the 11th 28.
    expect(self.phases.randomization).toMatchObject({ probability: 0.5, permitted: 4 });
  });

  it("takes local days from the offset, and orders sessions by the moment", async () => {
    const rows = [
      "Lark,2026-03-02T00:30:00+02:00,baseline,self,1,1,0",
      "Lark,2026-03-01T23:00:00Z,baseline,self,2,2,1",
    ];
    const [{ self }] = JSON.parse(await run(rows, "--json")).students;
    expect(self.sessions).toMatchObject([
      { line: 2, day: "2026-03-02", minuteOfDay: 30 },
      { line: 3, day: "2026-03-01", minuteOfDay: 1380 },
    ]);
  });

  it("answers at the edges with reasons and never with a null number", async () => {
    const rows = [
      "None,2026-03-02T09:00Z,baseline,self,0,0,9",
      "Full,2026-03-02T09:00Z,baseline,self,9,0,0",
      "Full,2026-03-03T09:00Z,intervention,self,9,0,0",
      "Idle,2026-03-02T09:00Z,baseline,observer,0,9,0",
    ];
    const written = await run(rows, "--json");
    const nullsAllowed = [
      "self",
      "observer",
      "acrossSources",
      "downward",
      "readiness",
      "randomization",
      "interval",
      "evidence",
      "work",
      "phase",
      "recent",
    ];
    const nulls = [...written.matchAll(/"(\w+)": null/g)].map(([, key]) => key);
    expect(nulls.filter((key) => !nullsAllowed.includes(key ?? ""))).toEqual([]);
    expect(written).not.toContain("NaN");
  });
});

describe("cli analyse", () => {
  it("says the main figures in words, and the caution", async () => {
    const page = await run(e1);
    expect(page).toContain("Self-recorded: 12 sessions, 60 % on task");
    expect(page).toContain("baseline to intervention: +26.4 points (");
    expect(page).toContain("wanted up: as wanted");
    expect(page).toContain("baseline to intervention: level +26 points, NAP 0.96");
    expect(page).toContain("cannot by themselves show cause");
    expect(page).not.toMatch(/NaN|undefined|null/);
  });
});

describe("bad rows", () => {
  it("are all listed by line; nothing is computed and the exit code is 2", async () => {
    const error = await failure([
      "Lark,2026-03-02T09:15:00,baseline,self,5,5,0",
      "Lark,2026-02-30T09:15:00Z,baseline,self,5,5,0",
      ",2026-03-03T09:15:00Z,before,teacher,5.5,-1,many",
      "Lark,2026-03-04T09:15:00Z,baseline,self,5,5,0",
      "Lark,2026-03-04T10:15:00+01:00,baseline,self,5,5,0",
      "Lark,2026-03-05T09:15:00Z,baseline,self,5,5",
      "Lark,2026-03-06T24:00:00Z,baseline,self,,5,2001",
    ]);
    expect(error.exitCode).toBe(2);
    const lines = error.message.split("\n");
    expect(lines[0]).toBe("Nothing was computed: 6 bad rows.");
    expect(lines.slice(1).map((line) => line.replace(/ is ".*/, ""))).toEqual([
      "Line 2: started_at",
      "Line 3: started_at",
      "Line 4: no student.",
      "Line 4: phase",
      "Line 4: source",
      "Line 4: on_task",
      "Line 4: off_task",
      "Line 4: no_mark",
      "Line 6: the same student, time and source as line 5.",
      "Line 7: the header has 7 columns, this row 6.",
      "Line 8: started_at",
      "Line 8: on_task",
      "Line 8: no_mark",
    ]);
  });

  it("an impossible draw is refused with what to write", async () => {
    const draw = (...options: string[]) => failure(e1, "--json", ...options);
    expect((await draw("--drawn", "2026-03-09")).message).toContain("go together");
    expect((await draw("--drawn-from", "9 March", "--drawn", "2026-03-09")).message).toContain(
      '"9 March" is not a day',
    );
    expect(
      (await draw("--drawn-from", "2026-03-09,2026-03-10", "--drawn", "2026-03-11")).message,
    ).toContain("not among the days");
  });

  it("a draw that is not the program's first day is refused", async () => {
    const days = "2026-03-09,2026-03-10,2026-03-11";
    const error = await failure(e1, "--drawn-from", days, "--drawn", "2026-03-11");
    expect(error.exitCode).toBe(2);
    expect(error.message).toContain(
      "the program of Lark begins on 2026-03-09, and the day drawn is 2026-03-11;",
    );
    const both = [...e1.slice(0, 5), row(9, "baseline", 40).replace("T09", "T08"), ...e1.slice(5)];
    expect((await failure(both, "--drawn-from", days, "--drawn", "2026-03-09")).message).toContain(
      "Lark has a baseline session on 2026-03-09, and the day drawn is 2026-03-09;",
    );
  });

  it("years that cannot be, no rows, and an open quotation mark are named", async () => {
    const year = (text: string) => failure([`Lark,${text}-03-02T09:15Z,baseline,self,5,5,0`]);
    expect((await year("1999")).message).toContain("from 2000 to 2099");
    expect((await year("2100")).message).toContain("from 2000 to 2099");
    expect((await failure([])).message).toContain("There are no sessions");
    const open = await failure(['"Lark,2026-03-02T09:15Z,baseline,self,5,5,0', "Wren,x,y,z,1,1,1"]);
    expect(open.message).toContain("what comes after it may not have been read");
  });
});

describe("the text", () => {
  const days = "2026-03-06,2026-03-09,2026-03-10,2026-03-11";
  const drawn = ["--drawn-from", days, "--drawn", "2026-03-09"];

  it("names the two weeks that it compares, and the randomization test", async () => {
    const next = [16, 17, 18].map((day) => row(day, "intervention", 90));
    const page = await run([...e1, ...next], ...drawn);
    expect(page).toContain("Week of 2026-03-16 against week of 2026-03-09");
    expect(page).toContain("Randomization test: p = 0.500 over 4 days");
  });

  it("tests the group as well", async () => {
    const { group } = JSON.parse(await run(e1, "--json", ...drawn));
    expect(group.self.phases.randomization).toMatchObject({ probability: 0.5, permitted: 4 });
  });
});
