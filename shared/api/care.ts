import { z } from "zod";
import { procedure } from "./errors.ts";

/** The backups: when the last good one was taken, and why the newest try failed. */
export const backupCareSchema = z.strictObject({
  last: z
    .strictObject({
      /** YYYY-MM-DD where the computer is. */
      day: z.iso.date(),
      wallMs: z.number(),
      offsetMinutes: z.number(),
    })
    .nullable(),
  problem: z.enum(["full", "read-only", "damaged", "failed"]).nullable(),
});
export type BackupCare = z.infer<typeof backupCareSchema>;

/** A session of which something cannot be read, or could not. */
export const damagedSessionSchema = z.strictObject({
  sessionId: z.uuidv7(),
  groupName: z.string(),
  day: z.iso.date(),
  /** How many entries; 0 when it is the plan that cannot be read, which no passing over mends. */
  entries: z.int().min(0),
});
export type DamagedSession = z.infer<typeof damagedSessionSchema>;

/** How the data is: what a teacher should know of it, whatever page is open. */
export const careSchema = z.strictObject({
  backup: backupCareSchema,
  /** Why all can be looked at and nothing be saved; null when all is well. */
  readingOnly: z.enum(["full", "read-only"]).nullable(),
  /** Other users of the computer can change what is in the data folder. */
  openToOthers: z.boolean(),
  /** Not counted anywhere until it is mended. */
  damaged: z.array(damagedSessionSchema),
  /** Counted without the entries that are passed over. */
  passedOver: z.array(damagedSessionSchema),
});
export type Care = z.infer<typeof careSchema>;

export const care = {
  state: procedure.output(careSchema),
  /** Goes on without the entries of a session that cannot be read; says how many they were. */
  passOver: procedure
    .input(z.strictObject({ sessionId: z.uuidv7() }))
    .output(z.strictObject({ entries: z.int() })),
};
