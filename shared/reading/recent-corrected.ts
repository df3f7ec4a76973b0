import {
  type CorrectedRate,
  type CorrectionReason,
  correctedRate,
} from "../agreement/corrected-rate.ts";
import { twoByTwo } from "../agreement/two-by-two.ts";
import { designEffect } from "../analysis/dispersion.ts";
import { addCounts, marked } from "../analysis/rate.ts";
import { recentChecks, recentOf } from "../analysis/recent.ts";
import type { CheckPair } from "../record/group-counts.ts";
import type { SessionCount } from "../record/session-count.ts";
import type { NotComputable } from "../statistics/computed.ts";
import { asPair } from "./as-pair.ts";

export interface RecentCorrected {
  /** Sessions with marks whose record was corrected. */
  readonly sessions: number;
  readonly rate: CorrectedRate | NotComputable<CorrectionReason>;
}

/**
 * A student's own record of the recent sessions as the adult's eye would have it: corrected by the spot
 * checks of the same sessions (`correctedRate`), with the sessions' design effect. Old checks correct no
 * new record.
 *
 * Example: recentCorrected(sessions, checks) // { sessions: 14, rate: { kind: "computed", value: 0.71, ... } }
 */
export function recentCorrected(
  sessions: readonly SessionCount[],
  checks: readonly CheckPair[],
): RecentCorrected {
  const recent = recentOf(sessions, "self").filter((counts) => marked(counts) > 0);
  const { on, off } = addCounts(recent);
  const table = twoByTwo(recentChecks(sessions, checks).map(asPair));
  const effect = designEffect([recent]).designEffect;
  return { sessions: recent.length, rate: correctedRate(table, { on, off }, effect) };
}
