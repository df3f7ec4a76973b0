import { createIntl } from "react-intl";
import { expect, it } from "vitest";
import { catalogues, type Language } from "../../../../src/text/catalogue.ts";
import { wordDamage } from "../../../../src/words/damage-words.ts";
import type { Voice } from "../../../../src/words/words.ts";

function voiceOf(language: Language): Voice {
  const intl = createIntl({ locale: language, messages: catalogues[language] });
  return {
    say: (id, values) => intl.formatMessage({ id }, values),
    formats: { fullDay: (day: string) => `<${day}>` } as Voice["formats"],
  };
}

const session = { groupName: "Owls", day: "2026-03-02" };

it.each([
  ["en", 2],
  ["es", 2],
] as const)(
  "a damaged session is told by its group, its day and how much of it: %s",
  (language, entries) => {
    const said = wordDamage(voiceOf(language), { ...session, entries });
    expect(said).toContain("Owls");
    expect(said).toContain("<2026-03-02>");
    expect(said).toContain(`${entries}`);
  },
);

it("a plan that cannot be read takes the session with it, and no count is named", () => {
  const said = wordDamage(voiceOf("en"), { ...session, entries: 0 });
  expect(said).toContain("Owls");
  expect(said).not.toContain("0 entries");
  expect(said).not.toBe(wordDamage(voiceOf("en"), { ...session, entries: 1 }));
});
