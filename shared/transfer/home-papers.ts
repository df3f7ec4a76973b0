import { z } from "zod";
import { agreedPageSchema } from "../home/agreed.ts";
import { contractSchema } from "../home/contract-terms.ts";
import { homeCardDaySchema, homeCardVersionSchema } from "../home/kept-card.ts";

/**
 * What was agreed about one student, the home cards and the contracts, as they leave. Whether a card was
 * stopped is not among it: it may have been for the student's safety, and these files leave the school.
 */
export const homePapersSchema = z.strictObject({
  studentId: z.uuidv7(),
  /** Every answer to what was agreed, oldest first; the newest of a line stands. */
  agreed: agreedPageSchema.shape.said,
  /** When it is looked at again; null where no day was set. */
  reviewOn: agreedPageSchema.shape.reviewOn,
  /** The language of the student's papers; null for the app's own. */
  language: agreedPageSchema.shape.language,
  /** Versions of the home card, oldest first, each with its own scale and home points of a rating. */
  homeCards: z.array(homeCardVersionSchema.omit({ studentId: true })),
  /** Cards that came back, by day: ratings from 0 (least) to 4 (best), a no is 0 and a yes is 4. */
  homeCardDays: z.array(homeCardDaySchema),
  /** Oldest first. What a day earned or cost is in the ledger. */
  contracts: z.array(
    contractSchema.omit({ studentId: true }).extend({
      /** Days that were closed. */
      closedDays: z.array(z.iso.date()),
    }),
  ),
});
export type HomePapers = z.infer<typeof homePapersSchema>;
