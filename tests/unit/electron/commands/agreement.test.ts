import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { agreement } from "../../../../electron/commands/agreement.ts";
import { CommandError } from "../../../../electron/commands/command.ts";

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "agreement-"));
});
afterAll(() => rm(folder, { recursive: true }));

async function run(text: string, ...options: string[]): Promise<string> {
  const path = join(folder, "pairs.csv");
  await writeFile(path, text);
  let written = "";
  await agreement.run([path, ...options], {
    write(part) {
      written += part;
    },
  });
  return written;
}

async function failure(text: string): Promise<CommandError> {
  const error = await run(text, "--json").catch((thrown: unknown) => thrown);
  if (error instanceof CommandError) return error;
  throw new Error(`expected a refusal, got ${String(error)}`);
}

// The seven-interval example of Reed & Azulay (2011), Behav Anal Pract 4(2):45-52: 71.4, 50 and 60 %.
const seven = [
  "student,cue,first,second",
  "Lark,1,on,off",
  "Lark,2,off,off",
  "Lark,3,off,off",
  "Lark,4,off,off",
  "Lark,5,on,on",
  "Lark,6,on,on",
  "Lark,7,off,on",
  "Wren,1,on,",
  "Wren,2,,off",
  "Wren,3,,",
  "Wren,4,ON,On",
].join("\n");

describe("cli agreement", () => {
  it("tells agreement by school week where rows have a day, of each student and of all", async () => {
    // Two Mondays to Sundays by hand: three of four match in the first week, none of one in the second.
    const dated = [
      "student,cue,first,second,day",
      "Lark,1,on,on,2026-03-02",
      "Lark,2,off,on,2026-03-08",
      "Wren,1,off,off,2026-03-04",
      "Wren,2,on,on,2026-03-06",
      "Wren,3,on,off,2026-03-09",
      "Wren,4,on,on,",
    ].join("\n");
    const { students, all } = JSON.parse(await run(dated, "--json"));
    const shares = (weeks: { monday: string; percent: { value: number } }[]) =>
      weeks.map(({ monday, percent }) => [monday, percent.value]);
    expect(shares(all.weeks)).toEqual([
      ["2026-03-02", 0.75],
      ["2026-03-09", 0],
    ]);
    expect(shares(students[0].weeks)).toEqual([["2026-03-02", 0.5]]);
    expect(all.table.compared).toBe(6);
    const wrong = await failure(dated.replace("2026-03-08", "8 March"));
    expect(wrong.message).toContain('Line 3: day is "8 March"');
  });

  it("prints every figure, keyed, for each student and all together", async () => {
    const answer = JSON.parse(await run(seven, "--json"));
    expect(answer.students.map(({ student }: { student: string }) => student)).toEqual([
      "Lark",
      "Wren",
    ]);
    const [lark, wren] = answer.students;
    expect(lark.percent.value).toBeCloseTo(0.714, 3);
    expect(lark.occurrence.value).toBe(0.5);
    expect(lark.nonOccurrence.value).toBe(0.6);
    expect(wren.table).toMatchObject({
      compared: 1,
      leftOut: { firstBlank: 1, secondBlank: 1, bothBlank: 1 },
    });
    expect(answer.all.table.compared).toBe(8);
    expect(Object.keys(answer.about)).toContain("kappa.adjusted");
    expect(answer.thresholds.acceptable).toBe(0.8);
  });

  it("cannot tell of a record that says on at every cue, and never lets its checks thin", async () => {
    const rows = Array.from(
      { length: 20 },
      (_, cue) => `Lark,${cue + 1},on,${cue < 18 ? "on" : "off"}`,
    );
    const text = ["student,cue,first,second", ...rows].join("\n");
    const answer = JSON.parse(await run(text, "--json"));
    const reading = { match: "cannot-tell", next: "check-more", reason: "all-recorded-on" };
    expect(answer.reading).toEqual(reading);
    expect(answer.students[0].reading).toEqual(reading);
    expect(answer.all).toMatchObject({
      reading,
      next: "check-more",
      kappa: { value: 0, standardError: null },
    });
    expect(answer.all.offRecordedOn).toMatchObject({ recordedOn: 2, seenOff: 2 });
    const page = await run(text);
    expect(page).toContain(
      "Cannot tell whether the records match: the first record says on at every cue.",
    );
    expect(page).not.toMatch(/strong|rarer/);
  });

  it("corrects the first record's rate by the cues compared, those not compared included", async () => {
    // 60 cues on and 40 off in the record; 30 compared: 14 on/on, 3 on/off, 1 off/on, 12 off/off.
    const pairs = (count: number, first: string, second: string) =>
      Array.from({ length: count }, () => `Lark,1,${first},${second}`);
    const text = [
      "student,cue,first,second",
      ...pairs(14, "on", "on"),
      ...pairs(3, "on", "off"),
      ...pairs(1, "off", "on"),
      ...pairs(12, "off", "off"),
      ...pairs(43, "on", ""),
      ...pairs(27, "off", ""),
    ].join("\n");
    const { all, about } = JSON.parse(await run(text, "--json"));
    // Rogan and Gladen: (.6 + .8 - 1) / (14/15 + .8 - 1).
    expect(all.corrected).toMatchObject({ kind: "computed", recorded: 0.6 });
    expect(all.corrected.value).toBeCloseTo(0.4 / (14 / 15 - 0.2), 12);
    expect(all.reading.match).toBe("fair");
    for (const key of [
      "corrected",
      "reading.match",
      "reading.next",
      "reading.reason",
      "offRecordedOn",
      "level",
    ])
      expect(Object.keys(about)).toContain(key);
    expect(await run(text)).toContain("On task about 54.5 %");
  });

  it("says it in words too", async () => {
    const page = await run(seven);
    expect(page).toContain("Agreement 71.4 %");
    expect(page).toContain("All together");
    expect(page).not.toMatch(/NaN|undefined|null/);
  });

  it("answers for a table without rows", async () => {
    const answer = JSON.parse(await run("student,cue,first,second\n", "--json"));
    expect(answer.students).toEqual([]);
    expect(answer.all.percent).toEqual({ kind: "not-computable", reason: "no-pairs" });
  });

  it("lists all bad rows by line and exits with 2", async () => {
    const error = await failure(
      "student,cue,first,second\nLark,1,on,off\n,2,on,maybe\nLark,x,on,on\nLark,4,on\n",
    );
    expect(error.exitCode).toBe(2);
    expect(error.message.split("\n")).toEqual([
      "Nothing was computed: 3 bad rows.",
      "Line 3: no student.",
      'Line 3: second is "maybe"; write on, off or nothing.',
      'Line 4: cue is "x"; write the cue\'s number.',
      "Line 5: the header has 4 columns, this row 3.",
    ]);
  });

  it("refuses a missing file, no file and two files", async () => {
    const output = { write: () => {} };
    await expect(agreement.run([join(folder, "none.csv")], output)).rejects.toMatchObject({
      exitCode: 1,
      message: expect.stringContaining("there is no such file"),
    });
    await expect(agreement.run([], output)).rejects.toThrow("Name the file");
    await expect(agreement.run(["a", "b"], output)).rejects.toThrow("One file at a time");
    await expect(agreement.run(["a", "--yaml"], output)).rejects.toThrow("--yaml");
  });

  it("refuses what is not UTF-8", async () => {
    const path = join(folder, "latin.csv");
    await writeFile(path, Buffer.from("student,cue,first,second\nJos\xe9,1,on,on\n", "latin1"));
    await expect(agreement.run([path], { write: () => {} })).rejects.toThrow("not UTF-8");
  });
});
