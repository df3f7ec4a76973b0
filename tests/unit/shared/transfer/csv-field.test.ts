import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { csvField, csvText, withoutGuard } from "../../../../shared/transfer/csv-field.ts";

// RFC 4180, section 2, rules 5 to 7.
describe("a field of a CSV file", () => {
  it.each([
    ["aaa", "aaa"],
    ["", ""],
    ["b CRLF\r\nbb", '"b CRLF\r\nbb"'],
    ["z,z", '"z,z"'],
    ['b"bb', '"b""bb"'],
    [" edge ", '" edge "'],
  ])("%j is written %s", (text, written) => {
    expect(csvField(text)).toBe(written);
  });
});

// The characters are those of OWASP's "CSV Injection".
describe("a field that a spreadsheet would take for a formula", () => {
  it.each([
    ["=2+5", "'=2+5"],
    ["+Max", "'+Max"],
    ["-1", "'-1"],
    ["@home", "'@home"],
    ["\tTab", "'\tTab"],
    ["\rReturn", `"'\rReturn"`],
    ["'=2", "''=2"],
    ['=HYPERLINK("x")', `"'=HYPERLINK(""x"")"`],
  ])("%j is written %j, and comes back", (text, written) => {
    expect(csvField(text)).toBe(written);
    const [record] = Papa.parse<string[]>(csvText([["first", text]])).data;
    expect(withoutGuard(record?.[1] ?? "")).toBe(text);
  });

  it.each(["'tis", "O'Neil", "a=b", "'", "''"])("%j is left alone", (text) => {
    expect(csvField(text)).toBe(text);
    expect(withoutGuard(text)).toBe(text);
  });
});

// RFC 4180, section 2, rule 1.
it("ends every line with CR and LF, the last one too", () => {
  expect(csvText([["aaa", "bbb"], ["ccc"]])).toBe("aaa,bbb\r\nccc\r\n");
});
