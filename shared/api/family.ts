import { z } from "zod";
import { familyWordsSchema } from "../home/family-words.ts";
import { idSchema } from "../roster/roster.ts";
import { procedure } from "./errors.ts";

/** The adult's own words on the pages for families. */
export const family = {
  /** Of every student in use to whose family something was written. */
  words: procedure.input(z.strictObject({ groupId: idSchema })).output(z.array(familyWordsSchema)),
  /**
   * Empty words take back what was written. With `before`, the words that the page went on from, refused where
   * another window has saved others since.
   */
  saveWords: procedure
    .input(
      familyWordsSchema
        .pick({ studentId: true, words: true })
        .extend({ before: familyWordsSchema.shape.words.optional() }),
    )
    .output(z.strictObject({})),
};
