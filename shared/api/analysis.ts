import { z } from "zod";
import { phaseSchema } from "../phase/phase.ts";
import { loggedCountsSchema } from "../record/group-counts.ts";
import { idSchema } from "../roster/roster.ts";
import { procedure } from "./errors.ts";

/**
 * The desktop side counts what the logs say; the page does the statistics with shared/analysis, off its UI
 * thread. So the numbers cross the border once and zooming or switching students asks for nothing.
 */
export const analysis = {
  counts: procedure.input(z.strictObject({ groupId: idSchema })).output(loggedCountsSchema),
  /** One student's own, from every group the student was in, and the phases that held for the student then. */
  studentCounts: procedure
    .input(z.strictObject({ studentId: idSchema }))
    .output(z.strictObject({ logged: loggedCountsSchema, phases: z.array(phaseSchema) })),
};

export const phases = {
  list: procedure.input(z.strictObject({ groupId: idSchema })).output(z.array(phaseSchema)),
  create: procedure.input(phaseSchema.omit({ id: true })).output(phaseSchema),
  /** All of them or none, such as the starts of one draw. */
  createAll: procedure
    .input(
      z.strictObject({
        groupId: idSchema,
        phases: z
          .array(phaseSchema.omit({ id: true, groupId: true }))
          .min(1)
          .max(24),
      }),
    )
    .output(z.array(phaseSchema)),
  update: procedure.input(phaseSchema.omit({ groupId: true, studentId: true })).output(phaseSchema),
  remove: procedure.input(z.strictObject({ id: idSchema })).output(z.strictObject({})),
};
