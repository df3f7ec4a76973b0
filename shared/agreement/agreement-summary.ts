import type { Computed, NotComputable } from "../statistics/computed.ts";
import { type GwetAc1, gwetAc1 } from "./gwet-ac1.ts";
import { type Kappa, type KappaIndices, type KappaReason, kappaIndices, kappaOf } from "./kappa.ts";
import { type AgreementStep, type MatchReading, matchReading } from "./match-reading.ts";
import { exactMcNemar, type McNemar } from "./mcnemar.ts";
import { nonOccurrenceAgreement, occurrenceAgreement } from "./occurrence.ts";
import { type OffRecordedOn, offRecordedOn } from "./off-recorded-on.ts";
import { type PercentAgreement, percentAgreement } from "./percent-agreement.ts";
import { agreementThresholds } from "./thresholds.ts";
import { type MarkPair, type TwoByTwo, twoByTwo } from "./two-by-two.ts";

/** Where the percentage alone stands. It says nothing of a record that is "on" at every cue: see `reading`. */
export type AgreementLevel = "too-few-checks" | "below-80" | "fair" | "strong";

/** What keeps the reading from being better, or what to know beside it. */
export type AgreementNote =
  /** Kappa is under .60: part of the matching may be chance. */
  | "kappa-below-60"
  /** Nearly all cues were of one kind, so a low kappa is no alarm and a high percentage no proof. */
  | "nearly-one-sided"
  /** The interval reaches below .80: more checks could still show it lower. */
  | "could-be-below-80";

export interface AgreementSummary {
  readonly table: TwoByTwo;
  readonly percent: PercentAgreement | NotComputable<"no-pairs">;
  readonly occurrence: Computed | NotComputable<"nobody-said-on">;
  readonly nonOccurrence: Computed | NotComputable<"nobody-said-off">;
  readonly offRecordedOn: OffRecordedOn | NotComputable<"nobody-seen-off">;
  readonly kappa: Kappa | NotComputable<KappaReason>;
  readonly ac1: GwetAc1 | NotComputable<"no-pairs">;
  readonly indices: KappaIndices | NotComputable<"no-pairs">;
  readonly mcNemar: McNemar;
  readonly level: AgreementLevel;
  /** How well the two records match, and what to do next; for one sentence on a screen. */
  readonly reading: MatchReading;
  readonly notes: readonly AgreementNote[];
  readonly next: AgreementStep;
}

/** All agreement figures of one set of pairs, with the codes for its plain sentence. */
export function agreementSummary(pairs: Iterable<MarkPair>): AgreementSummary {
  return summariseTable(twoByTwo(pairs));
}

/** `agreementSummary` for pairs that are already counted. */
export function summariseTable(table: TwoByTwo): AgreementSummary {
  const figures = {
    table,
    percent: percentAgreement(table),
    occurrence: occurrenceAgreement(table),
    nonOccurrence: nonOccurrenceAgreement(table),
    offRecordedOn: offRecordedOn(table),
    kappa: kappaOf(table),
    ac1: gwetAc1([
      [table.bothOn, table.firstOnly],
      [table.secondOnly, table.bothOff],
    ]),
    indices: kappaIndices(table),
    mcNemar: exactMcNemar(table),
  };
  const notes = notesOn(figures);
  const reading = matchReading(table);
  return { ...figures, level: levelOf(figures.percent, notes), reading, notes, next: reading.next };
}

/**
 * Whether there are enough checks to say that records and checks differ mostly one way: recorded as working,
 * seen as not. The one rule for it, in the advice and in what the class view points out.
 */
export function recordsFlatter({
  level,
  mcNemar,
}: Pick<AgreementSummary, "level" | "mcNemar">): boolean {
  return level !== "too-few-checks" && mcNemar.direction === "first-says-on-more";
}

/**
 * One summary for each key: by student, by group, by week, or any mixture the caller's key names.
 * Keys come in the order in which they are first met. A group's figure pools its students' pairs, so it
 * can look well while one student's does not: show both.
 */
export function agreementBy<Pair extends MarkPair>(
  pairs: Iterable<Pair>,
  keyOf: (pair: Pair) => string,
): Map<string, AgreementSummary> {
  const groups = new Map<string, Pair[]>();
  for (const pair of pairs) {
    const key = keyOf(pair);
    const group = groups.get(key);
    if (group) group.push(pair);
    else groups.set(key, [pair]);
  }
  return new Map([...groups].map(([key, group]) => [key, agreementSummary(group)]));
}

type Figures = Pick<AgreementSummary, "percent" | "kappa" | "indices">;

function notesOn({ percent, kappa, indices }: Figures): AgreementNote[] {
  const notes: AgreementNote[] = [];
  if (kappa.kind === "computed" && kappa.value < agreementThresholds.acceptableKappa)
    notes.push("kappa-below-60");
  if (
    indices.kind === "computed" &&
    Math.abs(indices.prevalence) >= agreementThresholds.oneSidedPrevalence
  )
    notes.push("nearly-one-sided");
  if (percent.kind === "computed" && percent.interval.lower < agreementThresholds.acceptable)
    notes.push("could-be-below-80");
  return notes;
}

/** "Strong" asks for both figures, unless one-sided cues make kappa meaningless. */
function levelOf(
  percent: PercentAgreement | NotComputable,
  notes: readonly AgreementNote[],
): AgreementLevel {
  if (percent.kind === "not-computable") return "too-few-checks";
  if (percent.compared < agreementThresholds.fewestCompared) return "too-few-checks";
  if (percent.value < agreementThresholds.acceptable) return "below-80";
  if (percent.value < agreementThresholds.strong) return "fair";
  const weak = notes.includes("kappa-below-60") && !notes.includes("nearly-one-sided");
  return weak ? "fair" : "strong";
}
