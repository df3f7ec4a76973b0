import { z } from "zod";
import { isAscending } from "./draw.ts";

const day = z.iso.date();

/** So many days, at most, can be drawn for one phase: one a school week over a school year. */
export const mostProbes = 40;

/** The days drawn for a maintenance phase on which the teacher watches whether the habit holds. */
export const probesSchema = z.strictObject({
  /** Last day that could be drawn; the first one is the phase's own first day. */
  until: day,
  seed: z.string().regex(/^[a-z0-9]{1,12}$/),
  /** As drawn; a later change of the calendar moves none. */
  days: z
    .array(day)
    .min(1)
    .max(mostProbes)
    .refine(isAscending, "the days stand in order, each once"),
});
export type Probes = z.infer<typeof probesSchema>;
