import type { MarkPair } from "../../../shared/agreement/two-by-two.ts";
import type { ObservedRecord, SessionState } from "../../../shared/session/state.ts";

/** Both observers' words on the same student and cue; looks that only one of them took are left out. */
export function observerPairs(state: Pick<SessionState, "observed">): MarkPair[] {
  const first = new Map<string, ObservedRecord>();
  const second = new Map<string, ObservedRecord>();
  for (const record of state.observed.values()) {
    const side = record.observer === 1 ? first : second;
    side.set(`${record.studentId}/${record.cue}`, record);
  }
  return [...first].flatMap(([key, one]) => {
    const other = second.get(key);
    return other === undefined ? [] : [{ first: one.value, second: other.value }];
  });
}
