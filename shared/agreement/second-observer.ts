import { type NotComputable, notComputable } from "../statistics/computed.ts";
import type { PairValue } from "./two-by-two.ts";

export interface SecondObserver {
  readonly kind: "computed";
  /** Sessions that an observer recorded, and those of them in which a second one did too. */
  readonly observed: number;
  readonly twice: number;
  /** `twice` over `observed`, 0 to 1. */
  readonly share: number;
  readonly meets: boolean;
}

/** Least share of a phase's points that needs a second observer. */
const secondObserverShare = 0.2;

/**
 * How much of one phase was watched by two observers, and whether that is as much as the standard asks:
 * agreement data in every phase, on at least 20 % of its points.
 *
 * `observed` are the ids of the phase's observed sessions; `pairs` are two observers' records of cues,
 * of any sessions. A session counts as watched twice when both saw the student at one cue at least.
 *
 * Source: What Works Clearinghouse, Single-Case Designs Technical Documentation 1.0 (Kratochwill et al.
 * 2010), as read in a copy of slides that quote it. It says how much to check, not how well the two
 * must agree; for that see `agreementSummary`.
 */
export function secondObserver(
  observed: Iterable<string>,
  pairs: Iterable<{
    readonly sessionId: string;
    readonly first: PairValue;
    readonly second: PairValue;
  }>,
): SecondObserver | NotComputable<"not-observed"> {
  const sessions = new Set(observed);
  if (sessions.size === 0) return notComputable("not-observed");
  const both = new Set<string>();
  for (const { sessionId, first, second } of pairs) {
    if (isSeen(first) && isSeen(second) && sessions.has(sessionId)) both.add(sessionId);
  }
  const share = both.size / sessions.size;
  return {
    kind: "computed",
    observed: sessions.size,
    twice: both.size,
    share,
    meets: share >= secondObserverShare,
  };
}

const isSeen = (value: PairValue): boolean => value === "on" || value === "off";
