import { describe, expect, it } from "vitest";
import { guessKind, guessMapping, mappingProblems } from "../../../../src/transfer/mapping.ts";
import { readRoster } from "../../../../src/transfer/read-roster.ts";
import { readTable } from "../../../../src/transfer/read-table.ts";

function read(lines: readonly string[], taken: readonly string[] = []) {
  const table = readTable(lines.join("\r\n"));
  if (table === null) throw new Error("No table");
  const pictures = new Map([
    ["shell", "shell"],
    ["concha", "shell"],
  ]);
  return readRoster(table, { mapping: guessMapping(table.header), taken, pictures });
}

describe("the kind of a file", () => {
  it.each([
    [["Name"], "roster"],
    [["Alumno", "Objetivo", "Dibujo"], "roster"],
    [["student", "started_at", "on_task", "off_task"], "sessions"],
    [["name", "on task"], "sessions"],
    [["a", "b"], "sessions"],
  ])("with the columns %j is %s", (header, kind) => {
    expect(guessKind(guessMapping(header))).toBe(kind);
  });

  it("decides which columns are needed and may not be shared", () => {
    const mapping = { ...guessMapping(["name", "target"]), picture: 1, startedAt: 0 };
    expect(mappingProblems(mapping, "roster")).toEqual({
      absent: [],
      shared: ["target", "picture"],
    });
    expect(mappingProblems(guessMapping(["x"]), "roster").absent).toEqual(["student"]);
  });
});

describe("a class in a file", () => {
  it("is read with names, own targets and pictures; what has no column is none", () => {
    const lines = ["name;target;picture", "Fern;Pen moving;Concha", "'=Robin;;"];
    expect(read(lines)).toEqual({
      rows: [
        { line: 2, row: { name: "Fern", target: "Pen moving", picture: "shell" } },
        { line: 3, row: { name: "=Robin", target: "", picture: null } },
      ],
      problems: [],
    });
    expect(read(["pupil", "Fern"]).rows).toEqual([
      { line: 2, row: { name: "Fern", target: "", picture: null } },
    ]);
  });

  it("tells everything that is wrong with each line", () => {
    const long = "x".repeat(61);
    const { rows, problems } = read(
      [
        "name,target,picture",
        "Fern,,",
        "FERN,,",
        "pine,,",
        `${long},${"y".repeat(301)},castle`,
        ",Pen moving,",
        "Robin",
      ],
      ["Pine"],
    );
    expect(rows.map(({ line }) => line)).toEqual([2]);
    expect(problems).toEqual([
      { line: 3, kind: "name-repeats", earlier: 2 },
      { line: 4, kind: "name-taken", found: "pine" },
      { line: 5, kind: "name-long", found: long },
      { line: 5, kind: "target-long" },
      { line: 5, kind: "field", field: "picture", found: "castle" },
      { line: 6, kind: "field", field: "student", found: "" },
      { line: 7, kind: "columns-differ", have: 1, most: 3 },
    ]);
  });
});
