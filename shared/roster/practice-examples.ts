import { z } from "zod";

/** What working looks like and what it does not, in the teacher's words, for practising with a class. */
export const practiceExamplesSchema = z.strictObject({
  working: z.array(z.string().trim().min(1).max(200)).max(12),
  notWorking: z.array(z.string().trim().min(1).max(200)).max(12),
});
export type PracticeExamples = z.infer<typeof practiceExamplesSchema>;
