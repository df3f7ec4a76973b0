import { staysAtEveryCue } from "../agreement/check-fading.ts";
import { type CheckStanding, checkStanding } from "../agreement/check-step.ts";
import { checkedSessions } from "../agreement/checked-sessions.ts";
import type { CheckPair, GroupCounts } from "../record/group-counts.ts";
import { asPair } from "./as-pair.ts";

/** What the record says of earlier checks. */
interface Earlier {
  readonly sessions: readonly Pick<GroupCounts["sessions"][number], "id">[];
  /** In the order of their sessions, oldest first. */
  readonly checks: readonly CheckPair[];
}

/** Where the whole group's checks stand after the sessions on record. */
export function groupStanding({ sessions, checks }: Earlier): CheckStanding {
  return checkStanding(
    checkedSessions(
      sessions.map(({ id }) => id),
      checks.map(inSession),
    ),
  );
}

/** Students whose own newest checks match too rarely for theirs to become rarer. */
export function checkedClosely({ checks }: Pick<Earlier, "checks">): Set<string> {
  const byStudent = Map.groupBy(checks, ({ studentId }) => studentId);
  const closely = [...byStudent].filter(([, own]) =>
    staysAtEveryCue(
      checkedSessions([...new Set(own.map(({ sessionId }) => sessionId))], own.map(inSession)),
    ),
  );
  return new Set(closely.map(([studentId]) => studentId));
}

const inSession = (check: CheckPair) => ({ ...asPair(check), sessionId: check.sessionId });
