import { z } from "zod";
import { procedure } from "./errors.ts";

const moment = z.strictObject({
  /** YYYY-MM-DD where the computer is. */
  day: z.iso.date(),
  wallMs: z.number(),
  offsetMinutes: z.number(),
});

/** The backups: when the last good one was taken, and why the newest try failed. */
export const backupCareSchema = z.strictObject({
  last: moment.nullable(),
  problem: z.enum(["full", "read-only", "damaged", "failed"]).nullable(),
});
export type BackupCare = z.infer<typeof backupCareSchema>;

/** A session of which something cannot be read, or could not. */
export const damagedSessionSchema = z.strictObject({
  sessionId: z.uuidv7(),
  groupName: z.string(),
  day: z.iso.date(),
  /** How many entries; 0 when it is the plan that cannot be read, which leaving entries out does not repair. */
  entries: z.int().min(0),
});
export type DamagedSession = z.infer<typeof damagedSessionSchema>;

/** A kept backup, with what would be lost by restoring it. */
export const keptBackupSchema = z.strictObject({
  name: z.string().max(100),
  taken: moment,
  /** `brought` came from elsewhere. */
  kind: z.enum(["daily", "before-migration", "brought"]),
  /** Null when it is damaged, or cannot be read just now. */
  lost: z.strictObject({ sessions: z.int(), students: z.int(), entries: z.int() }).nullable(),
});
export type KeptBackup = z.infer<typeof keptBackupSchema>;

/** How the data is: what a teacher should know of it, whatever page is open. */
export const careSchema = z.strictObject({
  backup: backupCareSchema,
  /** Why all can be looked at and nothing be saved; null when all is well. */
  readingOnly: z.enum(["full", "read-only"]).nullable(),
  /** Other users of the computer can change what is in the data folder. */
  openToOthers: z.boolean(),
  /** What this start did about a backup that it was asked to restore; null when it was not. */
  restored: z.strictObject({ backup: z.string().max(100), done: z.boolean() }).nullable(),
  /** Not counted anywhere until it is repaired. */
  damaged: z.array(damagedSessionSchema),
  /** Counted without the entries that are passed over. */
  passedOver: z.array(damagedSessionSchema),
});
export type Care = z.infer<typeof careSchema>;

export const care = {
  state: procedure.output(careSchema),
  /** The kept backups, newest first, and the name of the one that the next start restores. */
  backups: procedure.output(
    z.strictObject({ backups: z.array(keptBackupSchema), next: z.string().nullable() }),
  ),
  /** Writes a copy of everything to a folder on this computer or a stick; says where it is. */
  copyTo: procedure
    .input(z.strictObject({ folder: z.string().trim().min(1).max(1_000) }))
    .output(z.strictObject({ path: z.string() })),
  /** Takes a backup from elsewhere, by its whole path, among the kept ones; says its name there. */
  bring: procedure
    .input(z.strictObject({ path: z.string().trim().min(1).max(1_000) }))
    .output(z.strictObject({ name: z.string().max(100) })),
  /** A backup is put back when the app is closed and opened again; null takes that back. */
  restoreNext: procedure
    .input(z.strictObject({ name: z.string().max(100).nullable() }))
    .output(z.strictObject({})),
  /** Goes on without the entries of a session that cannot be read; says how many they were. */
  passOver: procedure
    .input(z.strictObject({ sessionId: z.uuidv7() }))
    .output(z.strictObject({ entries: z.int() })),
};
