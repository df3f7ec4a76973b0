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

/** How the data is: what a teacher should know of it, whatever page is open. */
export const careSchema = z.strictObject({
  backup: backupCareSchema,
});
export type Care = z.infer<typeof careSchema>;

export const care = {
  state: procedure.output(careSchema),
};
