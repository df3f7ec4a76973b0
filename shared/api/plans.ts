import { z } from "zod";
import { planSettingsSchema } from "../plan/plan.ts";
import { idSchema } from "../roster/roster.ts";
import { procedure } from "./errors.ts";

export const planSchema = z.strictObject({
  id: idSchema,
  groupId: idSchema,
  name: z.string().trim().min(1).max(60),
  settings: planSettingsSchema,
});
export type Plan = z.infer<typeof planSchema>;

export const plans = {
  /** A group always has at least one plan: its first is made with the group. */
  list: procedure.input(z.strictObject({ groupId: idSchema })).output(z.array(planSchema)),
  create: procedure.input(planSchema.omit({ id: true })).output(planSchema),
  update: procedure.input(planSchema.omit({ groupId: true })).output(planSchema),
  archive: procedure.input(z.strictObject({ id: idSchema })).output(z.strictObject({})),
};
