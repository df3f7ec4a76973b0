import { fairCoinUpperTail } from "../statistics/exact/fair-coin.ts";
import type { TwoByTwo } from "./two-by-two.ts";

/** Which way the disagreements lean; `first` is the self-record when a teacher checks. */
export type DisagreementDirection =
  /** The first record says yes when the second saw no, more often than the other way round. */
  | "first-says-on-more"
  | "second-says-on-more"
  /** Enough disagreements, and they go both ways about equally. */
  | "no-clear-direction"
  /** So few disagreements that even all of them one way could be chance. */
  | "too-few-disagreements";

export interface McNemar {
  readonly disagreements: number;
  /** Exact two-sided probability of so lopsided a split if each way were equally likely; 1 without any. */
  readonly probability: number;
  /**
   * Exact one-sided probability that the first record alone says on at so many of the disagreements, or
   * more, if each way were equally likely; 1 without any.
   */
  readonly oneSidedProbability: number;
  readonly direction: DisagreementDirection;
}

/**
 * Exact McNemar test: of the cues where the two records differ, are the two ways of differing equally
 * frequent? Two-sided binomial probability, doubled smaller tail, at most 1.
 *
 * Source: McNemar Q (1947) Psychometrika 12:153-157; the exact form is the sign test on disagreements.
 *
 * @param significance the probability at or below which a direction is named; .05 by usual practice.
 */
export function exactMcNemar(table: TwoByTwo, significance = 0.05): McNemar {
  const { firstOnly, secondOnly } = table;
  const disagreements = firstOnly + secondOnly;
  const probability = twoSided(Math.max(firstOnly, secondOnly), disagreements);
  const oneSidedProbability = fairCoinUpperTail(firstOnly, disagreements);
  return { disagreements, probability, oneSidedProbability, direction: lean() };

  function lean(): DisagreementDirection {
    if (twoSided(disagreements, disagreements) > significance) return "too-few-disagreements";
    if (probability > significance) return "no-clear-direction";
    return firstOnly > secondOnly ? "first-says-on-more" : "second-says-on-more";
  }
}

function twoSided(more: number, disagreements: number): number {
  return Math.min(1, 2 * fairCoinUpperTail(more, disagreements));
}
