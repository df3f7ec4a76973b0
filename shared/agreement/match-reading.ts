import { fisherUpperTail } from "../statistics/exact/fisher-exact.ts";
import { wilsonInterval } from "../statistics/wilson.ts";
import { exactMcNemar } from "./mcnemar.ts";
import { offRecordedOn } from "./off-recorded-on.ts";
import { percentAgreement } from "./percent-agreement.ts";
import { agreementThresholds } from "./thresholds.ts";
import type { TwoByTwo } from "./two-by-two.ts";

/** How well record and observation match, as far as these checks can say. */
export const matches = ["good", "fair", "low", "cannot-tell"] as const;
export type Match = (typeof matches)[number];

/** What to do next. Common practice, no source, except where a line says otherwise. */
export type AgreementStep =
  | "check-more"
  /** Checks become rarer by themselves (see check-fading). */
  | "let-checks-thin"
  /**
   * Low, and the first record says "on" too often: check every cue and pay for matching. Hundert &
   * Bucher (1978) J Appl Behav Anal 11:304: accuracy checks brought exaggerated records down.
   */
  | "reward-matching"
  /** Low without that lean: practise with examples and non-examples of the target. */
  | "practise-target";

/** Why these checks cannot tell. */
export type UnknownReason =
  /** Nothing was compared, or fewer than ten cues. */
  | "no-checks"
  | "few-checks"
  /** The record says one and the same at every cue, and something else was seen. */
  | "all-recorded-on"
  | "all-recorded-off"
  /** One and the same was seen at every cue: nothing could have shown a difference. */
  | "all-seen-on"
  | "all-seen-off"
  /** Both say both, and yet the record goes with what was seen no better than chance might. */
  | "no-better-than-chance";

export type KnownReason =
  /** low: under 80 % match. */
  | "below-80"
  /** low: moments seen off are recorded on too often, however high the percentage. */
  | "off-recorded-on"
  /** fair: 80 % or more, and under 90. */
  | "below-90"
  /** fair: differences lean towards recording on. */
  | "leans-to-on"
  /** fair: half of the moments seen off or more could be recorded on; too few were seen to say. */
  | "few-seen-off"
  /** good: 90 % or more, no lean, and surely most moments seen off are recorded so. */
  | "matches";

export type MatchReading =
  | {
      readonly match: "cannot-tell";
      readonly next: AgreementStep;
      readonly reason: UnknownReason;
    }
  | {
      readonly match: Exclude<Match, "cannot-tell">;
      readonly next: AgreementStep;
      readonly reason: KnownReason;
    };

/** Where the reading turns. Shares from 0 to 1. */
export const matchThresholds = {
  /** The record must go with what was seen better than chance at this one-sided level. Usual practice. */
  significance: 0.05,
  /** Surely more than this share of the moments seen off recorded on, with a lean, is low: 1 less 80 %. */
  hiddenTooOften: 1 - agreementThresholds.acceptable,
  /** For good, surely fewer than this share are. Common practice, no source. */
  hiddenForGood: 0.5,
} as const;

/**
 * How well the first record (a self-record) matches the second (what an adult saw), judged so that a
 * record which says "on" at every cue can never read as a match: it must tell off from on better than
 * chance (Fisher's exact test, one-sided .05), and the moments seen off are read by themselves. The first
 * that applies:
 *
 * 1. fewer than ten compared cues: cannot tell;
 * 2. under 80 % match, or surely more than a fifth of the moments seen off recorded on and the differences
 *    leaning that way (exact one-sided .05): low;
 * 3. a record all alike, nothing but one kind seen, or no better than chance: cannot tell;
 * 4. good at 90 % without a lean where surely most moments seen off are recorded so; fair otherwise.
 *
 * Checks may thin only when the match is good or fair and the lower limit of agreement is above what saying
 * "on" at every cue would have reached.
 *
 * The 80 and 90 % come from `agreementThresholds`; the order is ours, held by simulation
 * (tests/bench/calibration/agreement.ts).
 * Example: matchReading(twoByTwoOf(18, 2, 0, 0)) // cannot-tell, all-recorded-on, check-more
 */
export function matchReading(table: TwoByTwo): MatchReading {
  const percent = percentAgreement(table);
  if (percent.kind === "not-computable") return unknown("no-checks");
  if (percent.compared < agreementThresholds.fewestCompared) return unknown("few-checks");
  const { bothOn, firstOnly, secondOnly, bothOff } = table;
  const leansToOn = exactMcNemar(table).oneSidedProbability <= matchThresholds.significance;
  const hidden = offRecordedOn(table);
  const hiddenAtLeast = hidden.kind === "computed" ? hidden.interval.lower : 0;
  const hiddenAtMost = hidden.kind === "computed" ? hidden.interval.upper : 1;

  const low = (reason: KnownReason): MatchReading => ({
    match: "low",
    next: leansToOn ? "reward-matching" : "practise-target",
    reason,
  });
  if (percent.value < agreementThresholds.acceptable) return low("below-80");
  if (leansToOn && hiddenAtLeast > matchThresholds.hiddenTooOften) return low("off-recorded-on");

  if (firstOnly + bothOff === 0) return unknown("all-seen-on");
  if (bothOn + secondOnly === 0) return unknown("all-seen-off");
  if (secondOnly + bothOff === 0) return unknown("all-recorded-on");
  if (bothOn + firstOnly === 0) return unknown("all-recorded-off");
  if (!recordTellsApart(table)) return unknown("no-better-than-chance");

  const matching = bothOn + bothOff;
  const seenOn = bothOn + secondOnly;
  const thins = beatsAlwaysOn({ compared: percent.compared, matching, seenOn });
  const next = thins ? "let-checks-thin" : "check-more";
  const fair = (reason: KnownReason): MatchReading => ({ match: "fair", next, reason });
  if (percent.value < agreementThresholds.strong) return fair("below-90");
  if (leansToOn) return fair("leans-to-on");
  if (hiddenAtMost >= matchThresholds.hiddenForGood) return fair("few-seen-off");
  return { match: "good", next, reason: "matches" };
}

/**
 * Whether the first record tells off from on, as the second saw them, better than chance: Fisher's exact
 * test, one-sided .05. A record that is all alike never does.
 *
 * Example: recordTellsApart(twoByTwoOf(8, 0, 0, 2)) // true, P = 1 in 45
 */
export function recordTellsApart(table: TwoByTwo): boolean {
  const { bothOn, firstOnly, secondOnly, bothOff } = table;
  const byChance = fisherUpperTail(bothOn, firstOnly, secondOnly, bothOff);
  return byChance <= matchThresholds.significance;
}

/** So many cues compared, so many of them matching, and at so many on was seen. */
export interface ChecksCounted {
  readonly compared: number;
  readonly matching: number;
  readonly seenOn: number;
}

/**
 * Whether the lower limit of agreement (95 %, Wilson) is above what a record that says "on" at every cue
 * would have reached with the same observations: their share of on. False without a comparison.
 *
 * Example: beatsAlwaysOn({ compared: 40, matching: 40, seenOn: 32 }) // true: 91 % against 80
 */
export function beatsAlwaysOn({ compared, matching, seenOn }: ChecksCounted): boolean {
  return compared > 0 && wilsonInterval(matching, compared).lower > seenOn / compared;
}

const unknown = (reason: UnknownReason): MatchReading => ({
  match: "cannot-tell",
  next: "check-more",
  reason,
});
