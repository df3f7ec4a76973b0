import { describe, expect, it } from "vitest";
import { guessMapping, mappingProblems } from "../../../../src/transfer/mapping.ts";
import { readRows } from "../../../../src/transfer/read-rows.ts";
import { readTable } from "../../../../src/transfer/read-table.ts";

const nowMs = Date.UTC(2026, 2, 2, 10);
const head = "student,started_at,phase,source,on_task,off_task,no_mark";

function read(text: string) {
  const table = readTable(text);
  if (table === null) throw new Error("No table");
  return readRows(table, { mapping: guessMapping(table.header), source: "self", nowMs });
}

describe("the columns of a file", () => {
  it.each([
    [["student", "started_at", "phase", "source", "on_task", "off_task", "no_mark"]],
    [["Name", "Start", "x", "Who", "Working", "Not working", "Blank"]],
    [["Alumno", "Fecha y hora", "x", "Origen", "Trabajando", "Sin trabajar", "Sin marca"]],
  ])("%j are recognised", (header) => {
    expect(guessMapping(header)).toEqual({
      student: 0,
      startedAt: 1,
      source: 3,
      on: 4,
      off: 5,
      missing: 6,
      phase: header[2] === "x" ? null : 2,
      subject: null,
      assigned: null,
      completed: null,
      correct: null,
      target: null,
      picture: null,
    });
  });

  it("that are needed and not chosen, or chosen twice, are told", () => {
    const mapping = { ...guessMapping(["name", "start"]), off: 1 };
    expect(mappingProblems(mapping, "sessions")).toEqual({
      absent: ["on"],
      shared: ["startedAt", "off"],
    });
  });
});

describe("the rows of a file", () => {
  it("are read with their lines; what has no column is none", () => {
    expect(read("name;start;on;off\n Pine ;2026-02-16T09:15+01:00;6;2\n")).toEqual({
      rows: [
        {
          line: 2,
          row: {
            student: "Pine",
            startedAt: "2026-02-16T09:15:00+01:00",
            source: "self",
            on: 6,
            off: 2,
            missing: 0,
            phase: "",
            subject: "",
            work: null,
          },
        },
      ],
      problems: [],
    });
  });

  it("may say what a student got done, and nothing where nobody noted it", () => {
    const { rows, problems } = read(
      [
        `${head},assigned,completed,correct`,
        "Pine,2026-02-16T09:15:00Z,,self,6,2,1,20,15,12",
        "Otter,2026-02-16T09:15:00Z,,self,6,2,1,20,0,",
        "Wren,2026-02-16T09:15:00Z,,self,6,2,1,,,",
        "Lark,2026-02-16T09:15:00Z,,self,6,2,1,,15,",
        "Finch,2026-02-16T09:15:00Z,,self,6,2,1,20,15,16",
        "Robin,2026-02-16T09:15:00Z,,self,6,2,1,2001,many,1",
      ].join("\n"),
    );
    expect(rows.map(({ row }) => row.work)).toEqual([
      { assigned: 20, completed: 15, correct: 12 },
      { assigned: 20, completed: 0, correct: null },
      null,
    ]);
    expect(problems).toEqual([
      { line: 5, kind: "field", field: "assigned", found: "" },
      { line: 6, kind: "correct-over", correct: 16, completed: 15 },
      { line: 7, kind: "field", field: "assigned", found: "2001" },
      { line: 7, kind: "field", field: "completed", found: "many" },
    ]);
  });

  it("tell everything that is wrong with each, by line, and leave the others whole", () => {
    const { rows, problems } = read(
      [
        head,
        "Pine,2026-02-16T09:15:00Z,baseline,self,6,2,1",
        ",16.2.2026,,child,six,-2,",
        "Otter,2026-02-16T09:15:00Z,,self,0,0,0",
        "Otter,2026-02-16T09:15:00Z,,self,2000,1,0",
        "Otter,2026-03-02T10:00:01Z,,self,1,1,0",
        "Otter,1926-03-02T10:00:00Z,,self,1,1,0",
        "PINE,2026-02-16T10:15:00+01:00,,SELF,6,2,1",
        `${"x".repeat(61)},2026-02-16T09:15:00Z,,self,1,1,0`,
        "Wren,2026-02-16T09:15:00Z,,observer,1,1,0",
        "short",
        "Lark,2026-02-16T09:15:00Z,before,self,1,1,0",
        "Lark,2026-02-17T09:15:00Z,baseline,self,1,1,0",
        "Lark,2026-02-17T11:15:00Z,intervention,self,1,1,0",
      ].join("\n"),
    );
    expect(rows.map(({ line }) => line)).toEqual([2, 10, 13]);
    expect(problems).toEqual([
      { line: 3, kind: "field", field: "student", found: "" },
      { line: 3, kind: "field", field: "startedAt", found: "16.2.2026" },
      { line: 3, kind: "field", field: "source", found: "child" },
      { line: 3, kind: "field", field: "on", found: "six" },
      { line: 3, kind: "field", field: "off", found: "-2" },
      { line: 3, kind: "field", field: "missing", found: "" },
      { line: 4, kind: "no-marks" },
      { line: 5, kind: "many-marks", found: 2001 },
      { line: 6, kind: "time-unlikely", found: "2026-03-02T10:00:01Z" },
      { line: 7, kind: "time-unlikely", found: "1926-03-02T10:00:00Z" },
      { line: 8, kind: "repeats", earlier: 2 },
      { line: 9, kind: "name-long", found: "x".repeat(61) },
      { line: 11, kind: "columns-differ", have: 1, most: 7 },
      { line: 12, kind: "field", field: "phase", found: "before" },
      { line: 14, kind: "phase-differs", found: "intervention" },
    ]);
  });
});
