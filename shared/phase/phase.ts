import { z } from "zod";
import { idSchema } from "../roster/roster.ts";
import { drawSchema } from "./draw.ts";
import { probesSchema } from "./probes.ts";

/** The conditions a stretch of days can be under, in the order a program usually takes them. */
export const phaseKinds = ["baseline", "intervention", "fading", "maintenance"] as const;
export type PhaseKind = (typeof phaseKinds)[number];

export const phaseSchema = z.strictObject({
  id: idSchema,
  groupId: idSchema,
  /** Null when the phase is the whole group's. */
  studentId: idSchema.nullable(),
  kind: z.enum(phaseKinds),
  label: z.string().trim().max(60),
  /** First school-local day; a phase lasts until the next one starts. */
  startsOn: z.iso.date(),
  /** Null when the first day was chosen. */
  draw: drawSchema.nullable(),
  /** Days drawn for probes; only a maintenance phase has any. */
  probes: probesSchema.nullable(),
});
export type Phase = z.infer<typeof phaseSchema>;
