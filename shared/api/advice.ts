import { z } from "zod";
import { adviceDecisions } from "../advice/advice.ts";
import { phaseSchema } from "../phase/phase.ts";
import { programSchema } from "../roster/program.ts";
import { idSchema } from "../roster/roster.ts";
import { procedure } from "./errors.ts";
import { planSchema } from "./plans.ts";

/** What the teacher did with one piece of advice; kept so that a later reader knows why a plan changed. */
export const adviceDecisionSchema = z.strictObject({
  id: idSchema,
  groupId: idSchema,
  /** Null when the advice was about the whole group. */
  studentId: idSchema.nullable(),
  advice: z.enum(adviceDecisions),
  accepted: z.boolean(),
  note: z.string().trim().max(500),
  decidedMs: z.number(),
  day: z.iso.date(),
});
export type AdviceDecision = z.infer<typeof adviceDecisionSchema>;

/** An accepted step: from where to where on the ladder, and what the graph calls the phase it begins. */
const acceptedSchema = adviceDecisionSchema
  .pick({ groupId: true, studentId: true, advice: true, note: true })
  .extend({
    /** Where the program stands on the page; refused when it stands elsewhere by now. */
    fromPlace: programSchema.shape.place,
    toPlace: programSchema.shape.place,
    /** Name of the phase on the graph, in the teacher's language. */
    phaseLabel: phaseSchema.shape.label,
    /** Whether marks are worth more where the cues get fewer, so that nobody earns less; raised unless kept. */
    worth: z.enum(["raised", "kept"]).optional(),
  });
export type Accepted = z.infer<typeof acceptedSchema>;

/** What accepting a step changed. */
const moveSchema = z.strictObject({
  decision: adviceDecisionSchema,
  program: programSchema,
  /** The plan that got the step's cues; null past the last cue, where no plan changes. */
  plan: planSchema.nullable(),
  /** The group's phase first; then those of students who have phases of their own. */
  phases: z.array(phaseSchema),
});
export type Move = z.infer<typeof moveSchema>;

export const advice = {
  decisions: procedure
    .input(z.strictObject({ groupId: idSchema }))
    .output(z.array(adviceDecisionSchema)),
  decide: procedure
    .input(adviceDecisionSchema.omit({ id: true, decidedMs: true, day: true }))
    .output(adviceDecisionSchema),
  /** Keeps the decision, changes the plan in use, moves the program and begins the phase; all or nothing. */
  accept: procedure.input(acceptedSchema).output(moveSchema),
};
