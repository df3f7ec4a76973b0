import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import english from "../../../../src/text/en/news.json" with { type: "json" };
import spanish from "../../../../src/text/es/news.json" with { type: "json" };

const root = join(import.meta.dirname, "../../../..");
const { version }: { version: string } = JSON.parse(
  readFileSync(join(root, "package.json"), "utf8"),
);
/** The changelog's lines of this version, without the quotation marks that Markdown and the page write apart. */
const changelog = readFileSync(join(root, "CHANGELOG.md"), "utf8");
const ofVersion = changelog.split(/^## /m).find((part) => part.startsWith(version)) ?? "";
const plain = (text: string) => text.replace(/[“”]/g, '"').replace(/’/g, "'");

describe("what is new, shown once after an update", () => {
  const lines = Object.entries(english).filter(([id]) => id.startsWith("news.line."));

  it("is in the changelog's own words, of the version that is shown", () => {
    expect(lines.length).toBeGreaterThan(4);
    for (const [, line] of lines) expect(plain(ofVersion)).toContain(`- ${plain(line)}`);
  });

  it("is as many lines in Spanish", () => {
    expect(Object.keys(spanish)).toEqual(Object.keys(english));
  });
});
