import type { StudentReading } from "../../../shared/reading/student-reading.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";

/** Of which days a report speaks. */
export const spans = ["term", "month", "all"] as const;
export type ReportSpan = (typeof spans)[number];

/** What a meeting may do without; the rest of the two sheets is always printed. */
export const reportParts = [
  "weekChange",
  "program",
  "match",
  "weekTable",
  "phaseTable",
  "leftOut",
  "methods",
  "notes",
] as const;
export type ReportPart = (typeof reportParts)[number];

/** What both sheets of a report are made from. */
export interface ReportProps {
  readonly counts: GroupCounts;
  readonly reading: StudentReading;
  readonly name: string;
}

export interface SheetProps extends ReportProps {
  readonly has: (part: ReportPart) => boolean;
}
