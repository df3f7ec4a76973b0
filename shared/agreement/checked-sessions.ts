import type { CheckedSession } from "./check-fading.ts";
import { type MarkPair, twoByTwo } from "./two-by-two.ts";

/** A pair that says in which session it was made. */
export type SessionPair = MarkPair & { readonly sessionId: string };

/** How many cues each session compared and how many matched, in the order of `sessionIds`. */
export function checkedSessions(
  sessionIds: readonly string[],
  pairs: readonly SessionPair[],
): CheckedSession[] {
  const bySession = Map.groupBy(pairs, ({ sessionId }) => sessionId);
  return sessionIds.map((id) => {
    const { compared, bothOn, bothOff } = twoByTwo(bySession.get(id) ?? []);
    return { compared, matching: bothOn + bothOff };
  });
}
