import { z } from "zod";
import { privilegeSchema } from "./privilege.ts";
import { idSchema } from "./roster.ts";

const { name } = privilegeSchema.shape;

/** A privilege that is being had for some minutes; it stands before the class and names no student. */
export const classTimerSchema = z.strictObject({
  id: idSchema,
  name,
  minutes: z.int().min(1).max(120),
  /** Wall clock, ms since 1970 UTC. */
  endsMs: z.number(),
});
export type ClassTimer = z.infer<typeof classTimerSchema>;
