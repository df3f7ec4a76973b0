import type { PhaseKind } from "../phase/phase.ts";
import { type Ladder, rungAt } from "./ladder.ts";

/**
 * The condition that begins when a program goes from one place on its ladder to another: back is the
 * program itself again, the last rung is maintenance, everything between is fading. Common practice, no
 * source.
 *
 * @throws RangeError for a place that the ladder has not
 */
export function kindAfterMove(ladder: Ladder, from: number, to: number): PhaseKind {
  const rung = rungAt(ladder, to);
  if (to < from) return "intervention";
  return rung === "probes" ? "maintenance" : "fading";
}
