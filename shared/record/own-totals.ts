import type { SessionState } from "../session/state.ts";
import { selfCounts } from "./counts.ts";

/**
 * How many own cues came to all students together, and how many of them were answered.
 *
 * Example: ownTotals(emptySession) // { answered: 0, asked: 0 }
 */
export function ownTotals(state: SessionState): { answered: number; asked: number } {
  let [answered, asked] = [0, 0];
  for (const studentId of state.ownCues.keys()) {
    const { on, off, missing } = selfCounts(state, studentId) ?? { on: 0, off: 0, missing: 0 };
    answered += on + off;
    asked += on + off + missing;
  }
  return { answered, asked };
}
