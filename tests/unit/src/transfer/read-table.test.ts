import { describe, expect, it } from "vitest";
import { decodeText, readTable } from "../../../../src/transfer/read-table.ts";

describe("the text of a file", () => {
  const latin = Uint8Array.of(0x4e, 0x69, 0xf1, 0x6f);
  it.each([
    ["UTF-8", new TextEncoder().encode("Niño"), "Niño"],
    ["the Western European code page", latin, "Niño"],
    ["UTF-16 of a spreadsheet", Uint8Array.of(0xff, 0xfe, 0x4e, 0, 0xf1, 0), "Nñ"],
    ["UTF-16 the other way round", Uint8Array.of(0xfe, 0xff, 0, 0x4e, 0, 0xf1), "Nñ"],
  ])("is read from %s", (_name, bytes, text) => {
    expect(decodeText(bytes)).toBe(text);
  });

  it("is not found in a workbook", () => {
    expect(decodeText(Uint8Array.of(0x50, 0x4b, 3, 4, 0, 0))).toBeNull();
  });
});

describe("a table", () => {
  it.each([
    ["commas", "a,b\r\n1,2\r\n"],
    ["semicolons", "a;b\n1;2"],
    ["tabs and a mark at the start", "\uFEFFa\tb\n1\t2\n"],
    ["blanks and empty lines", "\n a , b \n\n 1 , 2 \n\n"],
  ])("is read with %s", (_name, text) => {
    const table = readTable(text);
    expect(table?.header).toEqual(["a", "b"]);
    expect(table?.rows.map(({ fields }) => fields)).toEqual([["1", "2"]]);
    expect(table?.broken).toEqual([]);
  });

  it("tells of lines as an editor counts them, also after line breaks inside a field", () => {
    const table = readTable('a,b\r\n"one\r\ntwo",2\r\n3\r\n4,5,6\r\n7,8\r\n');
    expect(table?.rows.map(({ line }) => line)).toEqual([2, 6]);
    expect(table?.broken).toEqual([
      { line: 4, problem: "columns-differ", have: 1, most: 2 },
      { line: 5, problem: "columns-differ", have: 3, most: 2 },
    ]);
  });

  it("tells of a quotation mark that is never closed", () => {
    expect(readTable('a,b\n1,2\n"3,4\n5,6\n')?.broken).toMatchObject([
      { line: 3, problem: "quote-open" },
    ]);
  });

  it.each(["", "\n \n", "\uFEFF"])("is not there in %j", (text) => {
    expect(readTable(text)).toBeNull();
  });
});
