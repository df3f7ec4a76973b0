import { workColumns } from "./work-fields.ts";

/** The columns of a CSV file of counted sessions, as it leaves the app and as the command line reads it. */
export const sessionColumns = [
  "student",
  "started_at",
  "phase",
  "source",
  "on_task",
  "off_task",
  "no_mark",
] as const;

/** Columns that such a file may have besides. */
export const moreSessionColumns = ["subject", ...workColumns] as const;
