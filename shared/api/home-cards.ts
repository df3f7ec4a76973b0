import { z } from "zod";
import { paperLanguages } from "../home/agreed.ts";
import { homeCardDaySchema, homeCardVersionSchema } from "../home/kept-card.ts";
import { idSchema } from "../roster/roster.ts";
import { procedure } from "./errors.ts";

const day = z.iso.date();
/** A week and a weekend on either side. */
const mostDays = 14;

/** A student's card for one day, with what was typed in of it so far. */
export const cardForDaySchema = z.strictObject({
  studentId: idSchema,
  version: homeCardVersionSchema,
  typed: homeCardDaySchema.nullable(),
  /** The language of the student's papers; null for the app's own. */
  language: z.enum(paperLanguages).nullable(),
});
export type CardForDay = z.infer<typeof cardForDaySchema>;

/** A student's cards of some days, oldest first, each with the version it was printed by. */
export const cardsOfSpanSchema = z.strictObject({
  studentId: idSchema,
  language: z.enum(paperLanguages).nullable(),
  cards: z.array(z.strictObject({ version: homeCardVersionSchema, typed: homeCardDaySchema })),
  /** What the student recorded on those days, where the card in use is to show it; else null. */
  selfRecord: z.strictObject({ on: z.int().min(0), off: z.int().min(0) }).nullable(),
});
export type CardsOfSpan = z.infer<typeof cardsOfSpanSchema>;

/** Cards that go home each day and come back. */
export const homeCards = {
  /** Every version of one student's card, in the order in which they were made. */
  versions: procedure
    .input(z.strictObject({ studentId: idSchema }))
    .output(z.array(homeCardVersionSchema)),
  /**
   * A changed card is a further version from a day on; what was rated before stays as it was. With `after`, the
   * version that the page went on from, refused where another window has made a newer one since.
   */
  saveVersion: procedure
    .input(
      homeCardVersionSchema.omit({ id: true }).extend({ after: idSchema.nullable().optional() }),
    )
    .output(homeCardVersionSchema),
  /** For all of a group who have a card on a day, in their order; nobody whose card is stopped. */
  ofDay: procedure
    .input(z.strictObject({ groupId: idSchema, day }))
    .output(z.array(cardForDaySchema)),
  /**
   * What stands already is not written again; a card cleared of everything is no card. With `began`, the card
   * as the page first had it, what another window saved since stays beside what was typed; without, a card is
   * taken whole.
   */
  saveDays: procedure
    .input(
      z.strictObject({
        days: z
          .array(
            z.strictObject({
              studentId: idSchema,
              typed: homeCardDaySchema,
              began: homeCardDaySchema.optional(),
            }),
          )
          .min(1)
          .max(60),
      }),
    )
    .output(z.strictObject({ written: z.int() })),
  /** The cards of a week or two, of all of a group who have one. */
  span: procedure
    .input(
      z
        .strictObject({ groupId: idSchema, from: day, to: day })
        .refine(
          ({ from, to }) =>
            Date.parse(to) - Date.parse(from) <= mostDays * 86_400_000 && from <= to,
          "two weeks at most",
        ),
    )
    .output(z.array(cardsOfSpanSchema)),
};
