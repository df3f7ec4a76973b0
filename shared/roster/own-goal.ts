import { z } from "zod";
import { idSchema } from "./roster.ts";

/** The on-task share of a session that one student works for, where it is not the plan's. */
export const ownGoalSchema = z.strictObject({
  studentId: idSchema,
  share: z.number().min(0.05).max(1),
});
export type OwnGoal = z.infer<typeof ownGoalSchema>;
