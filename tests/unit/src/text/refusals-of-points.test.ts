import { expect, it } from "vitest";
import englishCommon from "../../../../src/text/en/common.json";
import english from "../../../../src/text/en/points.json";
import spanishCommon from "../../../../src/text/es/common.json";
import spanish from "../../../../src/text/es/points.json";

// Every reason for which giving, taking or exchanging is refused says to the adult what to do instead.

const reasons = [
  "points-off",
  "points-not-agreed",
  "taking-not-agreed",
  "points-taking-off",
  "points-stopped",
  "session-not-running",
  "session-ended",
  "student-set-aside",
  "points-too-soon",
  "points-none-left",
  "points-two-to-one-day",
  "points-two-to-one-lately",
  "points-too-late",
  "points-no-press",
  "privilege-too-dear",
  "privilege-not-for",
  "privilege-taken-today",
  "privilege-full",
  "privilege-price-moved",
] as const;

/** A sentence that asks for something begins with one of these; Spanish in the form of usted. */
const asks = {
  en: /(^|[.,:;] |, and |and |instead, )(Praise|Give|Choose|Change|change it|Offer|Start|Mark|Corrections are made|Wait)\b/,
  es: /(^|[.,:;] |y )(Elogie|Dé|Devuelva|Elija|cámbielo|Ofrezca|Empiécela|Márquelo|Las correcciones se hacen|Espere)(?!\p{L})/u,
};

it.each(reasons)("%s says what to do, in both languages", (reason) => {
  const said: Readonly<Record<"en" | "es", Readonly<Record<string, string>>>> = {
    en: { ...englishCommon, ...english },
    es: { ...spanishCommon, ...spanish },
  };
  for (const language of ["en", "es"] as const) {
    const text = said[language][`refused.${reason}`] ?? "";
    expect(text).toMatch(/\. \S/);
    expect(
      text
        .split(/(?<=\.) /)
        .slice(1)
        .join(" ") + text,
    ).toMatch(asks[language]);
  }
});
