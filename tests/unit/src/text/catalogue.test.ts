import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { type MessageFormatElement, parse, TYPE } from "@formatjs/icu-messageformat-parser";
import { describe, expect, it } from "vitest";
import { catalogues } from "../../../../src/text/catalogue.ts";

/** The names of all values a message needs, also those inside plurals and choices. */
function argumentsOf(elements: readonly MessageFormatElement[]): Set<string> {
  const names = new Set<string>();
  for (const element of elements) {
    if (element.type === TYPE.literal || element.type === TYPE.pound) continue;
    names.add(element.value);
    if (element.type === TYPE.select || element.type === TYPE.plural) {
      for (const option of Object.values(element.options)) {
        for (const name of argumentsOf(option.value)) names.add(name);
      }
    }
  }
  return names;
}

const english = new Map<string, string>(Object.entries(catalogues.en));
const spanish = new Map<string, string>(Object.entries(catalogues.es));

describe("the message catalogues", () => {
  it("have the same messages in both languages", () => {
    expect([...spanish.keys()].sort()).toEqual([...english.keys()].sort());
  });

  it("are valid ICU messages that need the same values in both languages", () => {
    for (const [id, text] of english) {
      const inEnglish = argumentsOf(parse(text));
      const inSpanish = argumentsOf(parse(spanish.get(id) ?? ""));
      expect([...inSpanish].sort(), id).toEqual([...inEnglish].sort());
    }
  });

  it("say so where the published standard's numbers come from memory", () => {
    // No copy of the handbook could be read; who confirms its numbers takes the words out here too.
    const naming = (texts: ReadonlyMap<string, string>, name: RegExp) =>
      [...texts].filter(([, text]) => name.test(text)).map(([, text]) => text);
    const inEnglish = naming(english, /published standard/);
    const inSpanish = naming(spanish, /estándar publicado/);
    expect(inEnglish).toHaveLength(5);
    expect(inSpanish).toHaveLength(5);
    for (const text of inEnglish) expect(text).toContain("cited from memory");
    for (const text of inSpanish) expect(text).toContain("citado de memoria");
  });

  it.each(["en", "es"])("name each message in one file only: %s", (language) => {
    const folder = join(import.meta.dirname, "../../../../src/text", language);
    const seen = new Map<string, string>();
    const twice: string[] = [];
    for (const file of readdirSync(folder)) {
      const messages: Record<string, string> = JSON.parse(readFileSync(join(folder, file), "utf8"));
      for (const id of Object.keys(messages)) {
        if (seen.has(id)) twice.push(`${id}: ${seen.get(id)} and ${file}`);
        seen.set(id, file);
      }
    }
    expect(twice).toEqual([]);
  });

  it("leave no message empty", () => {
    for (const [id, text] of [...english, ...spanish]) expect(text.trim(), id).not.toBe("");
  });

  it("say things as a colleague would: words that read as translated or coined stay out", () => {
    const outworn =
      /\b(reckon\w*|mend(ed|ing)?|oftener|outworn|seldom|lay aside|laid aside|page of the day|the own|an own|records out and in|cue key|data side|sits on|stands? to last|day paper|evening paper|parted by)\b/i;
    for (const [id, text] of english) expect(text, id).not.toMatch(outworn);
  });

  it("speak American English and Latin American Spanish", () => {
    const british = /practis|behaviour|neighbour|colour|judgement|licence|\bmaths\b|\banew\b|\d %/i;
    for (const [id, text] of english) expect(text, id).not.toMatch(british);
    const peninsular =
      /ordenador|\bañad|\bpuls[aeó]|\bvosotr|\bos hab|\bcoge[rs]?\b|enfad|\bdeberes\b/i;
    for (const [id, text] of spanish) expect(text, id).not.toMatch(peninsular);
  });

  it("have one kind of quotation mark and apostrophe, each language its own", () => {
    const words = (language: string) =>
      ["text", "text/help"].flatMap((folder) => {
        const path = join(import.meta.dirname, "../../../../src", folder, language);
        return readdirSync(path).map(
          (file) => [file, readFileSync(join(path, file), "utf8")] as const,
        );
      });
    for (const [file, text] of words("en")) expect(text, file).not.toMatch(/'|\\"|[«»„]/);
    for (const [file, text] of words("es")) expect(text, file).not.toMatch(/'|\\"|[“”„]/);
  });

  it("never call a child's answer wrong or bad, and never rank", () => {
    const unkind =
      /\b(wrong answer|bad behaviou?r|worst|best student|rank|failed student|fail(s|ed)? to work)\b/i;
    for (const [id, text] of english) expect(text, id).not.toMatch(unkind);
  });
});
