import type { MarkPair } from "../../../shared/agreement/two-by-two.ts";
import type { SessionState, SpotCheckRecord } from "../../../shared/session/state.ts";

/** The newest check of each student and cue beside the student's own mark for it. */
export function matchPairs(
  state: Pick<SessionState, "spotChecks" | "marks">,
): (MarkPair & { readonly studentId: string })[] {
  const newest = new Map<string, SpotCheckRecord>();
  for (const check of state.spotChecks) {
    if (check.cue !== null) newest.set(`${check.studentId}/${check.cue}`, check);
  }
  return [...newest.values()].map(({ studentId, cue, value }) => ({
    studentId,
    first: state.marks.get(studentId)?.get(cue ?? 0)?.value ?? "none",
    second: value,
  }));
}
