import type { StudentReading } from "../../../shared/reading/student-reading.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";

/** What each section of a student's page is given. */
export interface SectionProps {
  readonly counts: GroupCounts;
  readonly reading: StudentReading;
  readonly name: string;
}
