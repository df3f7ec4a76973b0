import { z } from "zod";
import { idSchema } from "./roster.ts";

/** What points buy in a group. */
export const privilegeSchema = z.strictObject({
  id: idSchema,
  groupId: idSchema,
  name: z.string().trim().min(1).max(60),
  picture: z.string().min(1).max(40).nullable(),
  /** In points. */
  price: z.int().min(1).max(1000),
  /** 1 cheap, 2 middle, 3 dear. */
  band: z.union([z.literal(1), z.literal(2), z.literal(3)]),
  /** How many students can have it on one day; null for any number. */
  places: z.int().min(1).max(60).nullable(),
  /** How long it lasts; null where that is not measured. */
  minutes: z.int().min(1).max(120).nullable(),
  /** How often one student can have it on a day; null for any number. */
  perDay: z.int().min(1).max(20).nullable(),
  /** Students whom it is not offered. */
  notFor: z.array(idSchema).max(60),
});
export type Privilege = z.infer<typeof privilegeSchema>;

const time = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/);

/** A named stretch of the school day; some end with an exchange. */
export const periodSchema = z.strictObject({
  id: idSchema,
  name: z.string().trim().min(1).max(60),
  /** Local clock, such as 09:30; null where nobody said. */
  starts: time.nullable(),
  ends: time.nullable(),
  exchange: z.boolean(),
});
export type Period = z.infer<typeof periodSchema>;
