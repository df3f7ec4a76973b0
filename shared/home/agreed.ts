import { z } from "zod";
import { idSchema } from "../roster/roster.ts";

/** What is agreed about a student, each for itself. */
export const agreedLines = ["observed", "cued", "points", "taken", "home-card"] as const;
export type AgreedLine = (typeof agreedLines)[number];

/**
 * The lines that are asked for: nothing of points where a group earns none. What was said of them before is
 * kept.
 *
 * Example: linesAsked(false) // ["observed", "cued", "home-card"]
 */
export const linesAsked = (points: boolean): readonly AgreedLine[] =>
  points ? agreedLines : agreedLines.filter((line) => line !== "points" && line !== "taken");

/** `open`: nobody has said, or an answer was taken back. */
export const agreedAnswers = ["yes", "no", "open"] as const;
export type AgreedAnswer = (typeof agreedAnswers)[number];

/** An answer, the school-local day on which it was given, and who gave it. */
export const agreedSaidSchema = z.strictObject({
  line: z.enum(agreedLines),
  answer: z.enum(agreedAnswers),
  day: z.iso.date(),
  /** In the teacher's words, such as "Mother, by phone"; empty where nobody is named. */
  who: z.string().trim().max(60),
});
export type AgreedSaid = z.infer<typeof agreedSaidSchema>;

/** The languages of papers. */
export const paperLanguages = ["en", "es"] as const;

/** What was agreed about one student, and what holds for the student's papers. */
export const agreedPageSchema = z.strictObject({
  studentId: idSchema,
  /** Every answer that was given, oldest first. */
  said: z.array(agreedSaidSchema),
  /** When the page is looked at again; null where no day was set. */
  reviewOn: z.iso.date().nullable(),
  /** The language of the student's papers; null for the app's own. */
  language: z.enum(paperLanguages).nullable(),
  /** No home card is printed or asked for, and nothing says so on paper. */
  cardStopped: z.boolean(),
});
export type AgreedPage = z.infer<typeof agreedPageSchema>;

const nothingSaid: AgreedSaid = { line: "observed", answer: "open", day: "1970-01-01", who: "" };

/**
 * What stands for a line: the answer that was written down last, whatever day it names; null where there
 * is none or it was taken back.
 *
 * Example: standsFor([{ line: "cued", answer: "no", day: "2026-03-02", who: "" }], "cued")?.answer // "no"
 */
export function standsFor(said: readonly AgreedSaid[], line: AgreedLine): AgreedSaid | null {
  const newest = said.findLast((each) => each.line === line) ?? nothingSaid;
  return newest.answer === "open" ? null : newest;
}

/**
 * Whether a student takes part in seatwork: only a plain no keeps somebody out. Nothing noted is no
 * obstacle; the app reminds of it and goes on.
 *
 * Example: takesPart([]) // true
 */
export const takesPart = (said: readonly AgreedSaid[]): boolean =>
  standsFor(said, "cued")?.answer !== "no";

/**
 * The lines that nobody has answered, of those that are asked for. Who takes no part has nothing to agree to beyond that.
 *
 * Example: unanswered([{ line: "cued", answer: "no", day: "2026-03-02", who: "" }]) // []
 */
export const unanswered = (
  said: readonly AgreedSaid[],
  asked: readonly AgreedLine[] = agreedLines,
): AgreedLine[] => (takesPart(said) ? asked.filter((line) => standsFor(said, line) === null) : []);
