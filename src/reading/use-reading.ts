import { useQuery } from "@tanstack/react-query";
import { useMemo } from "react";
import type { GroupCounts } from "../../shared/record/group-counts.ts";
import { useAsk, useDaysOff, useStudents, useTimetable } from "../api/queries.ts";
import type { AnalysisAnswer, AnalysisJob } from "./analysis-job.ts";
import { askWorker } from "./analysis-line.ts";

/**
 * A group's counts, kept fresh when marks, phases, days off or names change. Only students in use are listed, in
 * the roster's order.
 */
export function useGroupCounts(groupId: string) {
  const counts = useAsk("records", ["counts", groupId], (api) => api.analysis.counts({ groupId }));
  const phases = useAsk("phases", [groupId], (api) => api.phases.list({ groupId }));
  const students = useStudents(groupId);
  const daysOff = useDaysOff();
  // An app that is left open over night keeps its counts, but it is another day.
  const today = useTimetable().data?.today;
  const data = useMemo((): GroupCounts | undefined => {
    if (counts.data === undefined || phases.data === undefined) return undefined;
    if (students.data === undefined || daysOff.data === undefined) return undefined;
    return wholeOf(counts.data, {
      phases: phases.data,
      students: students.data,
      daysOff: daysOff.data,
      today: today ?? counts.data.today,
    });
  }, [counts.data, phases.data, students.data, daysOff.data, today]);
  return { data, error: counts.error ?? phases.error ?? students.error ?? daysOff.error };
}

const wholes = new WeakMap<GroupCounts, GroupCounts>();

/** Screens that hold the same answers share one whole: the worker is given it once, and reads it once. */
function wholeOf(
  counts: GroupCounts,
  fresh: Pick<GroupCounts, "phases" | "students" | "daysOff" | "today">,
): GroupCounts {
  const known = wholes.get(counts);
  const isFresh =
    known?.phases === fresh.phases &&
    known.students === fresh.students &&
    known.daysOff === fresh.daysOff &&
    known.today === fresh.today;
  if (known !== undefined && isFresh) return known;
  const whole = { ...counts, ...fresh };
  wholes.set(counts, whole);
  return whole;
}

/** The question of a class's page. */
export const groupJob = (counts: GroupCounts | undefined): AnalysisJob => ({
  kind: "group",
  studentIds: counts?.students.map(({ id }) => id) ?? [],
});

/**
 * Reads a class, and one student of it, before anybody opens their pages. The class's page then finds its
 * answer, and other students' are computed by code that the engine has compiled already.
 */
export function useReadAhead(counts: GroupCounts | undefined): void {
  const group = useReading(counts, groupJob(counts));
  const studentId = counts?.students[0]?.id;
  const isNext = group.isSuccess && studentId !== undefined;
  useReading(isNext ? counts : undefined, { kind: "student", studentId: studentId ?? "" });
}

/** What the worker found, and whether it is still at it; an earlier finding stays while it works. */
export function useReading(counts: GroupCounts | undefined, job: AnalysisJob) {
  const version = versionOf(counts);
  return useQuery({
    queryKey: ["reading", counts?.group.id ?? "", version, job],
    queryFn: (): Promise<AnalysisAnswer> =>
      counts === undefined ? Promise.reject(new Error("No counts")) : askWorker(counts, job),
    enabled: counts !== undefined,
    // The same question over newer counts: what is open on the page stays open while it is answered.
    placeholderData: (before, asked) =>
      asked !== undefined && isSameQuestion(asked.queryKey, counts, job) ? before : undefined,
    // Readings are large and quickly made again.
    gcTime: 60_000,
  });
}

/** Whether an earlier question differs in nothing but the version of its counts. */
function isSameQuestion(
  [, groupId, , asked]: readonly unknown[],
  counts: GroupCounts | undefined,
  job: AnalysisJob,
): boolean {
  return groupId === counts?.group.id && JSON.stringify(asked) === JSON.stringify(job);
}

const versions = new WeakMap<GroupCounts, number>();
let lastVersion = 0;

/** A number for each set of counts, so that a cached reading never outlives what it was made from. */
function versionOf(counts: GroupCounts | undefined): number {
  if (counts === undefined) return 0;
  const known = versions.get(counts);
  if (known !== undefined) return known;
  lastVersion += 1;
  versions.set(counts, lastVersion);
  return lastVersion;
}
