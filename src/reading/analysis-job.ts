import { type GroupReading, readGroup } from "../../shared/reading/group-reading.ts";
import { type NextReading, readNext } from "../../shared/reading/next-reading.ts";
import { readStudent, type StudentReading } from "../../shared/reading/student-reading.ts";
import { type FamilyReading, readFamily } from "../../shared/reading/told/family-reading.ts";
import type { GroupCounts, GroupFacts, LoggedCounts } from "../../shared/record/group-counts.ts";

/** What the page can ask the worker; what the logs say is given once and then named by its number. */
export type AnalysisJob =
  | { readonly kind: "group"; readonly studentIds: readonly string[] }
  | { readonly kind: "student"; readonly studentId: string }
  /** For the families of all students in use; the goal is from 0 to 1. */
  | { readonly kind: "families"; readonly goal: number | null }
  | { readonly kind: "next" };

export type AnalysisAnswer =
  | { readonly kind: "group"; readonly reading: GroupReading }
  | { readonly kind: "student"; readonly reading: StudentReading }
  | { readonly kind: "families"; readonly readings: readonly FamilyReading[] }
  | { readonly kind: "next"; readonly reading: NextReading };

export type ToWorker =
  | { readonly kind: "counts"; readonly number: number; readonly logged: LoggedCounts }
  | { readonly kind: "forget"; readonly number: number }
  | {
      readonly kind: "job";
      readonly ask: number;
      readonly number: number;
      readonly facts: GroupFacts;
      readonly job: AnalysisJob;
    };

/** How far a job is: parts done of all its parts. */
export interface JobProgress {
  readonly done: number;
  readonly total: number;
}

export type FromWorker =
  | { readonly kind: "progress"; readonly ask: number; readonly progress: JobProgress }
  | {
      readonly kind: "done";
      readonly ask: number;
      readonly answer: AnalysisAnswer;
      readonly ms: number;
    }
  | { readonly kind: "failed"; readonly ask: number; readonly message: string };

/**
 * Does one job; pure, so that tests and benches run it without a worker.
 *
 * @param onProgress told before each student of a group; the group as a whole is the last part
 */
export function runJob(
  counts: GroupCounts,
  job: AnalysisJob,
  onProgress: (progress: JobProgress) => void = () => {},
): AnalysisAnswer {
  switch (job.kind) {
    case "group": {
      const total = job.studentIds.length + 1;
      const tell = (done: number) => onProgress({ done, total });
      return { kind: "group", reading: readGroup(counts, job.studentIds, tell) };
    }
    case "student":
      return { kind: "student", reading: readStudent(counts, job.studentId) };
    case "families":
      return {
        kind: "families",
        readings: counts.students.map(({ id, holdGoal }) =>
          readFamily(counts, id, holdGoal ?? job.goal),
        ),
      };
    case "next":
      return { kind: "next", reading: readNext(counts) };
  }
}
