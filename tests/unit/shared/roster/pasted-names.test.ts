import { describe, expect, it } from "vitest";
import { clashes } from "../../../../shared/roster/clashes.ts";
import { nameKey } from "../../../../shared/roster/name-key.ts";
import { pastedNames } from "../../../../shared/roster/pasted-names.ts";

describe("a pasted list of names", () => {
  it.each([
    ["one a line", "Ana\nBen\n\n  Cleo  ", ["Ana", "Ben", "Cleo"]],
    ["with list numbers", "1. Ana\n2) Ben", ["Ana", "Ben"]],
    ["on one line, with commas", "Ana, Ben, Cleo", ["Ana", "Ben", "Cleo"]],
    ["on one line, with semicolons", "Ana; Ben; Cleo", ["Ana", "Ben", "Cleo"]],
    ["Last, First on one line", "García, José", ["José García"]],
    [
      "Last, First on each line",
      "García, José\nde la Cruz, Ana María",
      ["José García", "Ana María de la Cruz"],
    ],
    ["one spreadsheet column", "Ana\r\nBen\r\n", ["Ana", "Ben"]],
    ["names of two words", "Ana Lu\nBen", ["Ana Lu", "Ben"]],
    ["nothing", " \n\t\n", []],
  ])("%s", (_, text, names) => {
    expect(pastedNames(text).names).toEqual(names);
  });

  it("rows of a spreadsheet with a heading and numbers are one student each", () => {
    const text = "Last\tFirst\tID\nGarcía\tJosé\t10023\nMoss\tBen\t10024\n";
    expect(pastedNames(text)).toEqual({
      names: ["José García", "Ben Moss"],
      form: "columns",
      heading: "Last, First, ID",
      leftOut: true,
    });
  });

  it.each([
    [
      "without a heading, columns join in their order",
      "José\tGarcía\t10023\nBen\tMoss\t10024",
      ["José García", "Ben Moss"],
    ],
    [
      "semicolons between columns",
      "Nombre;Apellidos;Curso\nJosé;García;4B\nAna;Ruiz;4B",
      ["José García", "Ana Ruiz"],
    ],
    [
      "commas between three columns",
      "Student,Email,Grade\nAna,ana@school.example,4\nBen,ben@school.example,4",
      ["Ana", "Ben"],
    ],
    ["commas between two columns under a heading", "Name,ID\nAna,7\nBen,8", ["Ana", "Ben"]],
    ["a quoted Last, First in a cell", 'Student\tID\n"Reed, Ana"\t7', ["Ana Reed"]],
    [
      "a column of addresses is left out",
      "Ana\tana@school.example\nBen\tben@school.example",
      ["Ana", "Ben"],
    ],
    ["one row", "José\tGarcía\t10023", ["José García"]],
  ])("%s", (_, text, names) => {
    expect(pastedNames(text).names).toEqual(names);
  });

  it("keeps repeated names, so that somebody decides", () => {
    expect(pastedNames("Ana\nana\nAna").names).toEqual(["Ana", "ana", "Ana"]);
  });
});

describe("when two names are one", () => {
  it("capitals, spaces and the writing of accents do not tell people apart", () => {
    expect(nameKey("  ANA\u00a0 Reed ")).toBe(nameKey("Ana Reed"));
    expect(nameKey("Jose\u0301")).toBe(nameKey("José"));
    expect(nameKey("Jose")).not.toBe(nameKey("José"));
  });

  it("a list is held against the group and against itself", () => {
    expect(clashes(["Ana", "Ben", "ana", "Cleo"], ["ben"])).toEqual([
      null,
      "taken",
      "repeated",
      null,
    ]);
  });
});
