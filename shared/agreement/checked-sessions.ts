import type { CheckedSession } from "./check-fading.ts";
import { type MarkPair, twoByTwo } from "./two-by-two.ts";

/** A pair that says in which session it was made. */
export type SessionPair = MarkPair & { readonly sessionId: string };

/** How many cues each session compared, how many matched and at how many on was seen, in the order of `sessionIds`. */
export function checkedSessions(
  sessionIds: readonly string[],
  pairs: readonly SessionPair[],
): CheckedSession[] {
  const bySession = Map.groupBy(pairs, ({ sessionId }) => sessionId);
  return sessionIds.map((id) => {
    const { compared, bothOn, secondOnly, bothOff } = twoByTwo(bySession.get(id) ?? []);
    return { compared, matching: bothOn + bothOff, seenOn: bothOn + secondOnly };
  });
}
