import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { CommandError } from "../../../../electron/commands/command.ts";
import { designs } from "../../../../electron/commands/designs.ts";
import { sessionColumns } from "../../../../shared/transfer/session-columns.ts";
import { temporaryFolder } from "../store/temporary-folder.ts";

interface Row {
  readonly student: string;
  readonly day: number;
  readonly on: number;
}

const dayOf = (day: number): string => `2026-09-${String(day).padStart(2, "0")}`;

/** Sessions of ten cues in September, all marked. */
function files(rows: readonly Row[], draw: unknown): [string, string] {
  const folder = temporaryFolder();
  const sessions = join(folder, "sessions.csv");
  const drawn = join(folder, "draw.json");
  const lines = rows.map(({ student, day, on }) =>
    [student, `${dayOf(day)}T09:00:00+02:00`, "", "self", on, 10 - on, 0].join(","),
  );
  writeFileSync(sessions, [sessionColumns.join(","), ...lines].join("\n"));
  writeFileSync(drawn, typeof draw === "string" ? draw : JSON.stringify(draw));
  return [sessions, drawn];
}

async function said(rows: readonly Row[], draw: unknown, ...more: string[]): Promise<string> {
  const [sessions, drawn] = files(rows, draw);
  let text = "";
  const write = (part: string) => {
    text += part;
  };
  await designs.run([sessions, "--draw", drawn, ...more], { write });
  return text;
}

const spread = (from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, at) => from + at);
const order = "ABBAABABBA";
const turns = [...order].map((letter, at) => ({
  student: "Ana",
  day: at + 1,
  on: letter === "A" ? 8 : 5,
}));

describe("cli designs", () => {
  it("tests two conditions by turns over every order that could be drawn", async () => {
    const found = JSON.parse(await said(turns, { design: "alternation", order }, "--json"));
    // All of A above all of B: two of the 84 orders (runs of one and two, 5 of each) are as far apart.
    expect(found.test).toMatchObject({ ways: 84, points: { A: 5, B: 5 } });
    expect(found.test.probability).toBeCloseTo(2 / 84, 12);
    expect(found.test.difference).toBeCloseTo(0.3, 12);
    expect(found.standing).toEqual({ standard: "meets" });
    expect(Object.keys(found.about)).toContain("test.probability");
  });

  it("tests a withdrawal over every way to draw its days", async () => {
    const drawn = [8, 15, 22];
    const rows = spread(1, 28).map((day) => ({
      student: "Ana",
      day,
      on: drawn.filter((change) => change <= day).length % 2 === 1 ? 9 : 4,
    }));
    const changes = drawn.map((day) => ({
      drawn: dayOf(day),
      from: spread(day - 1, day + 1).map(dayOf),
    }));
    const draw = { design: "withdrawal", student: "ana", changes };
    const found = JSON.parse(await said(rows, draw, "--json"));
    // The rate follows the program at each change: one of 3 x 3 x 3 ways.
    expect(found.test).toMatchObject({ ways: 27, changes: 3 });
    expect(found.test.probability).toBeCloseTo(1 / 27, 12);
    expect(found.standing).toEqual({ standard: "meets" });
  });

  it("tests staggered starts, each student by a line of their own", async () => {
    const begins = { Ana: 8, Ben: 13, Cleo: 18 };
    const rows = Object.entries(begins).flatMap(([student, start]) =>
      spread(1, 25).map((day) => ({ student, day, on: day < start ? 4 : 8 })),
    );
    const starts = Object.entries(begins).map(([student, start]) => ({
      student,
      drawn: dayOf(start),
      from: spread(start - 2, start + 2).map(dayOf),
    }));
    const text = await said(rows, { design: "staggered", starts });
    // One of 5 x 5 x 5 ways.
    expect(text).toContain("Randomization test: p = 0.00800, upward, over 125 ways to draw it");
    expect(text).toContain("Difference: 40.0 points");
    expect(text).toContain("Standard for this type of design (WWC 2022, from memory): meets");
  });

  it.each([
    ["no JSON", "order", /is not JSON/],
    ["another design", { design: "reversal" }, /does not fit/],
    [
      "too few letters",
      { design: "alternation", order: "ABBA" },
      /4 letters and the file 10 sessions/,
    ],
    ["a stranger", { design: "alternation", student: "Ben", order }, /no session of "Ben"/],
    [
      "days out of order",
      {
        design: "withdrawal",
        changes: [8, 5].map((day) => ({ drawn: dayOf(day), from: [dayOf(day)] })),
      },
      /in order of time/,
    ],
  ])("refuses %s with a line that says what to change", async (_what, draw, line) => {
    const refusal = said(turns, draw);
    await expect(refusal).rejects.toThrow(CommandError);
    await expect(refusal).rejects.toThrow(line);
  });

  it("says why there is no test", async () => {
    const text = await said(turns, { design: "alternation", order: "AAABBBABAB" });
    expect(text).toContain("not computable (order not permitted)");
  });
});
