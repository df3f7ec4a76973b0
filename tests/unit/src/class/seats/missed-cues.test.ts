import { createIntl } from "react-intl";
import { describe, expect, it } from "vitest";
import { wordMissed } from "../../../../../src/class/seats/missed-cues.ts";
import { catalogues, type Language } from "../../../../../src/text/catalogue.ts";

const worded = (language: Language, missed: readonly number[]) => {
  const intl = createIntl({ locale: language, messages: catalogues[language] });
  return wordMissed((id, values) => intl.formatMessage({ id }, values), missed);
};
const twelve = Array.from({ length: 12 }, (_, at) => at + 1);

describe("the cues that a seat did not show", () => {
  it.each([
    [[3], "Did not show cue 3", "No mostró la señal 3"],
    [[12, 3, 9], "Did not show cues 3, 9, 12", "No mostró las señales 3, 9, 12"],
    [
      twelve,
      "Did not show cues 1, 2, 3, 4, 5, 6, 7, 8, 9, 10 and 2 more",
      "No mostró las señales 1, 2, 3, 4, 5, 6, 7, 8, 9, 10 y 2 más",
    ],
  ])("%s", (missed, english, spanish) => {
    expect(worded("en", missed)).toBe(english);
    expect(worded("es", missed)).toBe(spanish);
  });
});
