import { describe, expect, it } from "vitest";
import { readCsv, refuseBadRows } from "../../../../electron/commands/csv-table.ts";

const columns = ["name", "mark"] as const;
const read = (text: string) => readCsv(text, columns);

// RFC 4180 for quoting and line ends.
describe("reading a table", () => {
  it.each([
    ["line ends of any system", "name,mark\r\nAda,on\r\n"],
    ["no line end at the end", "name,mark\nAda,on"],
    ["a byte order mark", "\uFEFFname,mark\nAda,on\n"],
    ["semicolons", "name;mark\nAda;on\n"],
    ["tabs", "name\tmark\nAda\ton\n"],
    ["columns in another order, in capitals, with others between", "Mark,note,NAME\non,x,Ada\n"],
    ["spaces about fields", "name , mark\n Ada , on \n"],
    ["empty lines", "name,mark\nAda,on\n\n,\n  \n"],
    ["quotes", 'name,mark\n"Ada","on"\n'],
  ])("takes %s", (_, text) => {
    expect(read(text)).toEqual({
      rows: [{ line: 2, fields: { name: "Ada", mark: "on" } }],
      bad: [],
    });
  });

  it("keeps commas and doubled quotes of a quoted field", () => {
    expect(read('name,mark\n"A, ""B""",on\n').rows[0]?.fields.name).toBe('A, "B"');
  });

  it("counts lines of the file, not records", () => {
    const text = 'name,mark\r\n"two\r\nlines",on\r\n\r\nBo,off\r\nCy\r\n';
    const { rows, bad } = read(text);
    expect(rows.map(({ line }) => line)).toEqual([2, 5]);
    expect(bad).toEqual([{ line: 6, problem: "the header has 2 columns, this row 1." }]);
  });

  it("reports an open quotation mark at the line where it is opened", () => {
    expect(read('name,mark\nAda,on\n"Bo,off\nCy,on\n').bad).toMatchObject([{ line: 3 }]);
  });
});

describe("a table that is none is refused", () => {
  it.each([
    ["", "empty"],
    ["name\nAda\n", 'no column "mark"'],
    ["name,mark,Name\nAda,on,Bo\n", '"name" is there twice'],
  ])("%j", (text, message) => {
    expect(() => read(text)).toThrow(message);
  });
});

it("refuses a file of more rows than an import takes, in one line", () => {
  const rows = (count: number): string => `name,mark\n${"Ada,on\n".repeat(count)}`;
  expect(readCsv(rows(20_000), ["name", "mark"]).rows).toHaveLength(20_000);
  expect(() => readCsv(rows(300_000), ["name", "mark"])).toThrow(
    /^The file has 300000 rows; at most 20000 can be read at once\. Split it into several files\.$/,
  );
});

describe("bad rows", () => {
  it("are all listed, by line", () => {
    const bad = [
      { line: 12, problem: "b." },
      { line: 3, problem: "a." },
    ];
    expect(() => refuseBadRows(bad)).toThrow(
      "Nothing was computed: 2 bad rows.\nLine 3: a.\nLine 12: b.",
    );
  });
  it("none, nothing happens", () => {
    expect(refuseBadRows([])).toBeUndefined();
  });
});
