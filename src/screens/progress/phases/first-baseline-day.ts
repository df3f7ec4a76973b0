import type { GroupCounts } from "../../../../shared/record/group-counts.ts";

/** Where the group's baseline began; without one the first session's day, else today. */
export function firstBaselineDay({
  phases,
  sessions,
  today,
}: Pick<GroupCounts, "phases" | "sessions" | "today">): string {
  const starts = phases.flatMap(({ kind, studentId, startsOn }) =>
    kind === "baseline" && studentId === null ? startsOn : [],
  );
  return starts.toSorted()[0] ?? sessions[0]?.day ?? today;
}
