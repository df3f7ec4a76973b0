import { eventIterator } from "@orpc/contract";
import { z } from "zod";
import { planChimeSchema } from "../plan/plan.ts";
import { procedure } from "./errors.ts";

export const languages = ["en", "es"] as const;
export const themes = ["system", "light", "dark", "contrast"] as const;

export const appInfoSchema = z.strictObject({
  version: z.string(),
  host: z.enum(["electron", "loopback"]),
  dataFolder: z.string(),
  /** Fast-forward factor of the conductor's clock; 1 outside demonstrations and tests. */
  speed: z.number().positive(),
  hasSample: z.boolean(),
});
export type AppInfo = z.infer<typeof appInfoSchema>;

/** More seats than this side by side leave no room for a student's answers; common practice, no source. */
export const mostSeatsInRow = 10;

export const settingsSchema = z.strictObject({
  language: z.enum(languages),
  theme: z.enum(themes),
  /** The teacher has heard the volume check once. */
  soundChecked: z.boolean(),
  /** What is in the printer; `region` until the teacher chooses. */
  paper: z.enum(["region", "A4", "Letter"]),
  /** Seats in a row of a group's room, by group id; a group that is not named has its rows as wide as the window. */
  seatsInRow: z.record(z.uuidv7(), z.int().min(1).max(mostSeatsInRow)),
  /** Groups whose tiles show pictures and no names. */
  picturesOnly: z.array(z.uuidv7()).max(1_000),
  /** Whether single keys answer spot checks and observations. */
  singleKeys: z.boolean(),
  /** Whom the school has named for worries, in the teacher's words; no child's name. */
  worryContact: z.string().trim().max(200),
  /** Off where the school wants no points: nothing of them is shown, and nothing is earned. */
  points: z.boolean(),
  /** The version whose news were put away; null when none were yet. */
  newsSeen: z.string().max(40).nullable(),
  /** Whether the reminder of a period is also a soft chime; else it is only seen. */
  reminderSound: z.boolean(),
  /** What a new plan sounds like. */
  chime: planChimeSchema,
  /** Linear gain of a new plan's chime. */
  volume: z.number().min(0.05).max(1),
  /** Whether students may join with devices of their own; nothing listens until seats are opened. */
  seats: z.boolean(),
  /** Whether the adult's phone shows a name while its place is held down; over an encrypted line only. */
  pocketNames: z.boolean(),
});
export type Settings = z.infer<typeof settingsSchema>;

/** What a change touched; the page refreshes only that. */
export const topics = [
  "settings",
  "groups",
  "students",
  "plans",
  "sessions",
  "records",
  "phases",
  "program",
  "care",
  "points",
  "home",
  "teams",
  "seats",
] as const;
export type Topic = (typeof topics)[number];

/** `epoch` names one run of the desktop side; a client from another epoch refreshes everything. */
export const changeMarkSchema = z.strictObject({
  epoch: z.string().max(60),
  version: z.int().min(0),
});
export const changeSchema = changeMarkSchema.extend({ topics: z.array(z.enum(topics)) });
export type Change = z.infer<typeof changeSchema>;

export const app = {
  info: procedure.output(appInfoSchema),
  addSample: procedure.output(z.strictObject({ groupId: z.uuidv7() })),
  removeSample: procedure.output(z.strictObject({ studentsRemoved: z.int() })),
  settings: procedure.output(settingsSchema),
  saveSettings: procedure.input(settingsSchema.partial()).output(settingsSchema),
  /** Resumable: the client names the last change it has. */
  changes: procedure
    .input(z.strictObject({ after: changeMarkSchema.nullable() }))
    .output(eventIterator(changeSchema)),
};
