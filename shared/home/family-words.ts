import { z } from "zod";
import { idSchema } from "../roster/roster.ts";

/** Letters that fit a family's page in large type, with everything else on it. */
export const mostFamilyWords = 600;

/** What an adult writes to one student's family. */
export const familyWordsSchema = z.strictObject({
  studentId: idSchema,
  /** Empty where nothing was written. */
  words: z.string().trim().max(mostFamilyWords),
  /** School-local day on which they were written; null without any. */
  day: z.iso.date().nullable(),
});
export type FamilyWords = z.infer<typeof familyWordsSchema>;
