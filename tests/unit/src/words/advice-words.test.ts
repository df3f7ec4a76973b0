import { createIntl } from "react-intl";
import { describe, expect, it } from "vitest";
import { type Advice, type AdviceInputs, advise } from "../../../../shared/advice/advice.ts";
import { lastPlace } from "../../../../shared/advice/ladder.ts";
import { summariseTable } from "../../../../shared/agreement/agreement-summary.ts";
import { twoByTwoOf } from "../../../../shared/agreement/two-by-two.ts";
import { catalogues, type Language } from "../../../../src/text/catalogue.ts";
import { wordChance, wordDecision, wordReason } from "../../../../src/words/advice-words.ts";
import type { Voice } from "../../../../src/words/words.ts";

/** A voice that says the real sentences. */
function voiceOf(language: Language): Voice {
  const intl = createIntl({ locale: language, messages: catalogues[language] });
  return {
    say: (id, values) => intl.formatMessage({ id }, values),
    formats: {
      number: (value: number) => intl.formatNumber(value),
      percent: (value: number) => `${Math.round(100 * value)} %`,
    } as Voice["formats"],
  };
}

const ladder = { cueSteps: 2 };
const session = (on: number, off: number, missing = 0) => ({ on, off, missing });
const times = (count: number, on: number, off: number) =>
  Array.from({ length: count }, () => session(on, off));
const records = {
  none: [],
  one: times(1, 9, 1),
  unanswered: [...times(2, 9, 1), session(1, 0, 9)],
  heldBarely: times(3, 9, 1),
  held: times(3, 19, 1),
  heldLong: times(12, 10, 0),
  fewCues: times(4, 4, 1),
  atGoal: times(4, 8, 2),
  mixed: [session(9, 1), session(7, 3), session(8, 2)],
  missed: times(3, 3, 7),
  missedLong: times(12, 3, 7),
  fallsToMixed: [...times(9, 10, 0), session(8, 2), session(7, 3), session(8, 2)],
  fallsWhileHeld: [...times(3, 20, 0), ...times(3, 36, 4)],
  fallsToNothing: [...times(9, 8, 2), session(3, 7), session(2, 8), session(0, 9)],
};
const checks = {
  none: twoByTwoOf(0, 0, 0, 0),
  sevenMatch: twoByTwoOf(4, 0, 0, 3),
  seenOn: twoByTwoOf(39, 0, 1, 0),
  fewDiffer: twoByTwoOf(3, 2, 0, 1),
  good: twoByTwoOf(24, 1, 1, 14),
  low: twoByTwoOf(5, 3, 3, 5),
  flattering: twoByTwoOf(30, 8, 1, 21),
  alwaysOn: twoByTwoOf(18, 2, 0, 0),
};

/** Every combination of what the advice turns on. */
const walked: readonly { readonly name: string; readonly advice: Advice }[] = (
  ["self", "observer"] as const
).flatMap((source) =>
  Object.entries(records).flatMap(([record, sessions]) =>
    Object.entries(checks).flatMap(([check, table]) =>
      [true, false].flatMap((pointsPaid) =>
        [0, 5, null].flatMap((sessionsSinceCheck) =>
          [3, 12].flatMap((daysHere) =>
            [null, { now: 0.5, before: 0.8 }].flatMap((work) =>
              Array.from({ length: lastPlace(ladder) + 1 }, (_, place) => {
                const inputs: AdviceInputs = {
                  ladder,
                  place,
                  goal: 0.8,
                  sessions,
                  daysHere,
                  work,
                  source,
                  agreement: summariseTable(table),
                  sessionsSinceCheck,
                  pointsPaid,
                  baseline: { self: 0.4, observer: 0.3 },
                };
                const name = `${source} ${record} ${check} paid ${pointsPaid} since ${sessionsSinceCheck} days ${daysHere} work ${work?.now} at ${place}`;
                return { name, advice: advise(inputs) };
              }),
            ),
          ),
        ),
      ),
    ),
  ),
);

const saysBelow = { en: /below the goal/i, es: /por debajo de la meta/i };
const saysHeld = { en: /has held/i, es: /se ha mantenido/i };

describe.each(["en", "es"] as const)("headline and reason read together, in %s", (language) => {
  const voice = voiceOf(language);
  const read = walked.map(({ name, advice }) => ({
    name,
    advice,
    headline: wordDecision(voice, advice),
    reason: wordReason(voice, advice, "Birch"),
  }));

  it("are both there", () => {
    for (const { name, headline, reason } of read) {
      expect(headline, name).toMatch(/\S \S|\.$/);
      expect(reason, name).toMatch(/\.$|\?$/);
    }
  });

  it("never say keep going beside below the goal", () => {
    const below = read.filter(({ reason }) => saysBelow[language].test(reason));
    expect(below.length).toBeGreaterThan(0);
    for (const { name, advice, headline } of below) {
      expect(["step-back", "ask-what-changed"], name).toContain(advice.decision);
      expect(headline, name).not.toBe(voice.say("advice.keep-going"));
    }
  });

  it("never take cues away, or step back, against what the reason says", () => {
    for (const { name, advice, reason } of read) {
      const held = saysHeld[language].test(reason);
      if (advice.toPlace > advice.inputs.place) expect(held, name).toBe(true);
      if (advice.decision === "step-back" || advice.decision === "ask-what-changed") {
        expect(held, name).toBe(false);
        expect(saysBelow[language].test(reason), name).toBe(true);
      }
    }
  });

  it("leave a record that is open to more sessions or to a decision, and say how open", () => {
    const open = read.filter(({ advice }) => /not-yet|undecided/.test(advice.reason));
    expect(open.length).toBeGreaterThan(0);
    for (const { name, advice, headline, reason } of open) {
      expect(["keep-going", "two-weeks-over"], name).toContain(advice.decision);
      expect(reason, name).toMatch(/in 10|de 10/);
      if (advice.decision === "two-weeks-over")
        expect(headline, name).toMatch(/^Two weeks|^Han pasado/);
    }
  });

  it("never speak of what is clear or probable, which are words for intervals", () => {
    for (const { reason } of read)
      expect(reason).not.toMatch(/clear|probabl[ye]|claramente|probablemente/i);
  });

  it("never ask for the match first where a record falls or every check matches", () => {
    for (const { name, advice } of read) {
      if (advice.decision !== "check-match") continue;
      expect(name).not.toMatch(/^\w+ (missed|falls)/);
      expect(name).not.toMatch(/sevenMatch/);
      expect(name).not.toMatch(/^observer/);
    }
  });
});

it("says of one chance in ten what it says of nine, and never that it is almost certain", () => {
  const certain = /almost certain|nearly certain|casi con|casi segur/i;
  for (const language of ["en", "es"] as const) {
    const voice = voiceOf(language);
    const surely = { en: /very likely/, es: /con mucha probabilidad/ }[language];
    for (const chance of [0, 0.1, 0.5, 0.9, 1])
      expect(wordChance(voice, chance)).not.toMatch(certain);
    expect(wordChance(voice, 0.9)).toMatch(surely);
    const below = walked.filter(({ advice }) => advice.reason.startsWith("below-goal"));
    expect(below.length).toBeGreaterThan(0);
    for (const { name, advice } of below)
      expect(wordReason(voice, advice, "Birch"), name).toMatch(surely);
    expect(catalogues[language]["program.goalHelp"]).toMatch(surely);
  }
});

it("walks every reason", () => {
  expect(new Set(walked.map(({ advice }) => advice.reason)).size).toBe(18);
});

it("walks every decision", () => {
  expect(new Set(walked.map(({ advice }) => advice.decision))).toEqual(
    new Set([
      "not-enough-data",
      "check-match",
      "step-back",
      "ask-what-changed",
      "look-at-work",
      "two-weeks-over",
      "keep-going",
      "thin-cues",
      "end-cues-and-probe",
    ]),
  );
});

it("says a chance in words that go with its number", () => {
  const voice = voiceOf("en");
  for (let chance = 0; chance <= 1; chance += 0.001) {
    const words = wordChance(voice, chance);
    const inTen = Number(/(\d+) in 10/.exec(words)?.[1]);
    expect(inTen).toBeGreaterThanOrEqual(1);
    expect(inTen).toBeLessThanOrEqual(9);
    if (/^more likely at/.test(words)) expect(inTen).toBeGreaterThan(5);
    if (/^more likely short/.test(words)) expect(inTen).toBeLessThan(5);
    if (/^as likely/.test(words)) expect(inTen).toBe(5);
  }
  expect(wordChance(voice, 0.95)).toContain("9 in 10 or more");
  expect(wordChance(voice, 0.05)).toContain("1 in 10 or less");
});
