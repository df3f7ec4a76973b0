import { z } from "zod";
import { agreedPageSchema, agreedSaidSchema } from "../home/agreed.ts";
import { idSchema } from "../roster/roster.ts";
import { homePapersSchema } from "../transfer/home-papers.ts";
import { procedure } from "./errors.ts";

const nothing = z.strictObject({});

/** What was agreed about each student: who may be observed, cued, earn points, and the rest. */
export const agreed = {
  /** Of the students in use, in their order. */
  ofGroup: procedure.input(z.strictObject({ groupId: idSchema })).output(z.array(agreedPageSchema)),
  /** Of one student, an archived one too. */
  of: procedure.input(z.strictObject({ studentId: idSchema })).output(agreedPageSchema),
  /**
   * Adds an answer; the newest of a line stands. Whoever does not want to be cued leaves a session that is
   * open at once.
   */
  say: procedure
    .input(z.strictObject({ studentId: idSchema, said: agreedSaidSchema }))
    .output(nothing),
  /** All of one student's papers as they leave: what was agreed, home cards, contracts. */
  papers: procedure.input(z.strictObject({ studentId: idSchema })).output(homePapersSchema),
  /** When the page is looked at again, the language of papers, and whether the home card is stopped. */
  savePaper: procedure
    .input(
      agreedPageSchema
        .pick({ reviewOn: true, language: true, cardStopped: true })
        .partial()
        .extend({ studentId: idSchema }),
    )
    .output(nothing),
};
