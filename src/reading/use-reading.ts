import { useQuery } from "@tanstack/react-query";
import { useMemo } from "react";
import type { FamilyReading } from "../../shared/reading/told/family-reading.ts";
import type { GroupCounts, GroupFacts, LoggedCounts } from "../../shared/record/group-counts.ts";
import { useLoggedCounts, useLoggedOfStudents } from "../api/logged-counts.ts";
import { useAsk, useDaysOff, useGroup, useStudents, useTimetable } from "../api/queries.ts";
import type { AnalysisAnswer, AnalysisJob } from "./analysis-job.ts";
import { askWorker } from "./analysis-line.ts";
import {
  countsOf,
  type EachCounts,
  eachCounts,
  partedCounts,
  type ReadCounts,
} from "./counts-of-each.ts";

/**
 * A group's counts, kept fresh when marks, phases, days off or names change. Only students in use are listed, in
 * the roster's order.
 */
export function useGroupCounts(groupId: string) {
  const counts = useLoggedCounts(groupId);
  const group = useGroup(groupId);
  const phases = useAsk("phases", [groupId], (api) => api.phases.list({ groupId }));
  const students = useStudents(groupId);
  const daysOff = useDaysOff();
  // An app that is left open over night keeps its counts, but it is another day.
  const timetable = useTimetable();
  const today = timetable.data?.today;
  const data = useMemo((): ReadCounts | undefined => {
    if (counts.data === undefined || group === undefined || phases.data === undefined) return;
    if (students.data === undefined || daysOff.data === undefined || today === undefined) return;
    const { number, logged } = counts.data;
    const facts = { group, phases: phases.data, students: students.data, daysOff: daysOff.data };
    return { ...logged, ...facts, today, number };
  }, [counts.data, group, phases.data, students.data, daysOff.data, today]);
  const asked = [counts, phases, students, daysOff, timetable];
  return { data, error: asked.find(({ error }) => error !== null)?.error ?? null };
}

/**
 * The counts by which one student's own pages are read: the group's, or, of a student who was in another
 * group before, the student's own from every group.
 */
export function useStudentCounts(groupId: string, studentId: string) {
  const { data: each, error } = useEach(groupId, (id) => id === studentId);
  const data = each === undefined ? undefined : countsOf(each, studentId);
  return { data, error };
}

/** The same for pages about every student of a group. */
export const useCountsOfEach = (groupId: string) => useEach(groupId, () => true);

function useEach(groupId: string, isMeant: (studentId: string) => boolean) {
  const ofGroup = useGroupCounts(groupId);
  const phases = useAsk("phases", [groupId], (api) => api.phases.list({ groupId }));
  const students = ofGroup.data?.students ?? [];
  const moved = students.filter(({ id, hasMoved }) => hasMoved && isMeant(id)).map(({ id }) => id);
  const own = useLoggedOfStudents(moved, phases.dataUpdatedAt);
  const named = moved.join(" ");
  const data = useMemo((): EachCounts | undefined => {
    if (ofGroup.data === undefined) return undefined;
    const movedIds = named === "" ? [] : named.split(" ");
    return eachCounts(ofGroup.data, movedIds, own.data ?? []);
  }, [ofGroup.data, own.data, named]);
  return { data, error: ofGroup.error ?? own.error };
}

const factsOf = ({ group, students, phases, daysOff, today }: GroupFacts): GroupFacts => ({
  group,
  students,
  phases,
  daysOff,
  today,
});

function loggedOf(counts: ReadCounts): LoggedCounts {
  const {
    number: _,
    group: _g,
    students: _s,
    phases: _p,
    daysOff: _d,
    today: _t,
    ...logged
  } = counts;
  return logged;
}

/** The question of a class's page. */
export const groupJob = (counts: ReadCounts | undefined): AnalysisJob => ({
  kind: "group",
  studentIds: counts?.students.map(({ id }) => id) ?? [],
});

/**
 * Reads a class, and one student of it, before anybody opens their pages. The class's page then finds its
 * answer, and other students' are computed by code that the engine has compiled already.
 */
export function useReadAhead(counts: ReadCounts | undefined): void {
  const group = useReading(counts, groupJob(counts));
  const studentId = counts?.students[0]?.id;
  const isNext = group.isSuccess && studentId !== undefined;
  useReading(isNext ? counts : undefined, { kind: "student", studentId: studentId ?? "" });
}

/** What the worker found, and whether it is still at it; an earlier finding stays while it works. */
export function useReading(counts: ReadCounts | undefined, job: AnalysisJob) {
  const facts = counts === undefined ? null : factsOf(counts);
  return useQuery({
    queryKey: ["reading", counts?.group.id ?? "", job, counts?.number ?? 0, facts],
    queryFn: (): Promise<AnalysisAnswer> =>
      counts === undefined || facts === null
        ? Promise.reject(new Error("No counts"))
        : askWorker({ number: counts.number, logged: loggedOf(counts), facts }, job),
    enabled: counts !== undefined,
    // The same question over newer counts: what is open on the page stays open while it is answered.
    placeholderData: (before, asked) =>
      asked !== undefined && isSameQuestion(asked.queryKey, counts, job) ? before : undefined,
    // Readings are large and quickly made again.
    gcTime: 60_000,
  });
}

/**
 * What a page for each student's family says, those who moved by their own record from every group.
 *
 * @param goal on-task rate to hold, 0 to 1; null where there is none
 */
export function useFamilyReadings(each: EachCounts | undefined, goal: number | null) {
  const job = { kind: "families", goal } as const;
  const parts = each === undefined ? [] : partedCounts(each);
  return useQuery({
    queryKey: [
      "reading",
      each?.ofGroup.group.id ?? "",
      job,
      parts.map((counts) => [counts.number, factsOf(counts)]),
    ],
    queryFn: async (): Promise<readonly FamilyReading[]> => {
      const answers = await Promise.all(
        parts.map((counts) =>
          askWorker(
            { number: counts.number, logged: loggedOf(counts), facts: factsOf(counts) },
            job,
          ),
        ),
      );
      return answers.flatMap((answer) => (answer.kind === "families" ? answer.readings : []));
    },
    enabled: each !== undefined,
    placeholderData: (before, asked) =>
      asked !== undefined && isSameQuestion(asked.queryKey, each?.ofGroup, job)
        ? before
        : undefined,
    gcTime: 60_000,
  });
}

/** Whether an earlier question differs in nothing but what it was asked of. */
function isSameQuestion(
  [, groupId, asked]: readonly unknown[],
  counts: GroupCounts | undefined,
  job: AnalysisJob,
): boolean {
  return groupId === counts?.group.id && JSON.stringify(asked) === JSON.stringify(job);
}
