import type { PhaseKind } from "../../phase/phase.ts";
import type { Source } from "../../record/session-count.ts";
import { baselineCorrectedTau } from "../../statistics/baseline-corrected-tau.ts";
import { notComputable } from "../../statistics/computed.ts";
import { mannWhitney } from "../../statistics/mann-whitney.ts";
import { nap } from "../../statistics/nap.ts";
import { pnd } from "../../statistics/pnd.ts";
import { tau } from "../../statistics/tau.ts";
import type { Evidence } from "../evidence.ts";
import { type BaselineReadiness, baselineReadiness } from "./baseline-readiness.ts";
import { type Downward, downward } from "./downward.ts";
import { dualCriterion } from "./dual-criterion.ts";
import { immediacy } from "./immediacy.ts";
import { level } from "./level.ts";
import { logOddsRatio } from "./log-odds-ratio.ts";
import { phaseEvidence } from "./phase-evidence.ts";
import { type PointsStandard, phasePoints, pointsStandard } from "./points-standard.ts";
import { randomizationTest } from "./randomization-test.ts";
import { spread } from "./spread.ts";
import { type DayPoint, phaseTrend } from "./trend.ts";
import { type Wanted, wantedOf } from "./wanted.ts";

/** A stretch of days under one condition, with its on-task rates from 0 to 1. */
export interface PhaseSeries {
  readonly kind: PhaseKind;
  readonly label: string;
  /** Who recorded these points; never both. */
  readonly source: Source;
  readonly points: readonly DayPoint[];
}

/** Two series that are compared, by their places in the list; `from` is the earlier. */
export interface PhasePair {
  readonly from: number;
  readonly to: number;
}

/** The days from which the program's first day was drawn, and the one drawn. */
export interface StartDraw {
  readonly permittedDays: readonly number[];
  readonly day: number;
}

/** What the design can and cannot show about cause. */
export type CauseCaution =
  /** One phase only: there is nothing to compare. */
  | "nothing-to-compare"
  /** Baseline once, program once: a change may have come from anything that began then. */
  | "one-change-cannot-show-cause"
  /** The change was repeated, yet not at three points in time. */
  | "fewer-than-three-changes"
  /** No baseline in the record. */
  | "no-baseline"
  /** Baseline and program, of which one has too few points to stand for a phase. */
  | "phases-too-short"
  | "none";

export interface PhaseDescription {
  readonly kind: PhaseKind;
  readonly label: string;
  readonly source: Source;
  readonly points: number;
  readonly standard: PointsStandard;
  readonly level: ReturnType<typeof level>;
  readonly trend: ReturnType<typeof phaseTrend>;
  readonly spread: ReturnType<typeof spread>;
  /** For baselines only. */
  readonly readiness: BaselineReadiness | null;
}

/** Two phases compared; `from` and `to` are places in the list of phases. */
export type PhaseComparison = PhasePair & {
  /** One phase was observed and the other self-recorded: part of the change may be the recorder's. */
  readonly sourcesDiffer: boolean;
  /** Mean of the later phase less mean of the earlier; null where one is empty. */
  readonly levelChange: number | null;
  /** How firmly a difference may be worded; null where a phase has fewer than three points. */
  readonly evidence: Evidence | null;
  /**
   * How much the earlier phase rose by itself, 0 to 1, where it did and the later one is higher: part of
   * the change was on its way. Otherwise 0. See `baselineReadiness`.
   */
  readonly riseBefore: number;
  readonly immediacy: ReturnType<typeof immediacy>;
  readonly nap: ReturnType<typeof nap>;
  readonly mannWhitney: ReturnType<typeof mannWhitney>;
  readonly tau: ReturnType<typeof tau>;
  readonly baselineCorrectedTau: ReturnType<typeof baselineCorrectedTau>;
  readonly pnd: ReturnType<typeof pnd>;
  readonly logOddsRatio: ReturnType<typeof logOddsRatio>;
  readonly dualCriterion: ReturnType<typeof dualCriterion>;
  readonly wanted: Wanted;
  /** The two that look upward, turned over where the rate should fall; else null. */
  readonly downward: Downward | null;
};

export interface PhaseSummary {
  readonly phases: readonly PhaseDescription[];
  readonly comparisons: readonly PhaseComparison[];
  /** Present only when the start day was drawn. */
  readonly randomization: ReturnType<typeof testDraw> | null;
  /** Changes between baseline and program, in either direction, of phases with enough points for the standard. */
  readonly changes: number;
  readonly caution: CauseCaution;
}

/** Attempts at showing the effect, at as many points in time, that a design needs. */
const changesNeeded = 3;

/**
 * Describes each phase and compares each with the one after it, or as `pairs` says. Phases are in time
 * order; points within a phase are put in time order here.
 *
 * The caution follows What Works Clearinghouse, Single-Case Designs Technical Documentation 1.0
 * (Kratochwill et al. 2010): at least three attempts to show the effect at three points in time. One
 * baseline followed by one program phase is not such a design. A phase counts with three points or more.
 *
 * The randomization test, when the start day was drawn, takes the points of the first baseline and of
 * the program phase after it; later phases came under other decisions. Where the two were recorded by
 * different people the day of the start and the change of recorder cannot be told apart, so there is
 * no test.
 */
export function phaseSummary(
  phases: readonly PhaseSeries[],
  draw?: StartDraw,
  pairs: readonly PhasePair[] = neighbours(phases),
): PhaseSummary {
  const ordered = phases.map((phase) => ({ ...phase, points: inTimeOrder(phase.points) }));
  const changes = countChanges(ordered, phasePoints.fewest);
  return {
    phases: ordered.map(describe),
    comparisons: pairs.flatMap((pair) => compare(ordered, pair)),
    randomization: draw === undefined ? null : testDraw(ordered, pairs, draw),
    changes,
    caution: cautionOn(ordered, changes),
  };
}

function neighbours(phases: readonly PhaseSeries[]): PhasePair[] {
  return phases.slice(1).map((_, from) => ({ from, to: from + 1 }));
}

function describe({ kind, label, source, points }: PhaseSeries): PhaseDescription {
  const values = valuesOf(points);
  return {
    kind,
    label,
    source,
    points: points.length,
    standard: pointsStandard(points.length),
    level: level(values),
    trend: phaseTrend(points),
    spread: spread(values),
    readiness: kind === "baseline" ? baselineReadiness(points) : null,
  };
}

function compare(phases: readonly PhaseSeries[], { from, to }: PhasePair): PhaseComparison[] {
  const earlier = phases[from];
  const later = phases[to];
  if (earlier === undefined || later === undefined) return [];
  const a = valuesOf(earlier.points);
  const b = valuesOf(later.points);
  const before = level(a);
  const after = level(b);
  const known = before.kind === "computed" && after.kind === "computed";
  const wanted = wantedOf(earlier.kind, later.kind);
  const levelChange = known ? after.mean - before.mean : null;
  return [
    {
      from,
      to,
      sourcesDiffer: earlier.source !== later.source,
      levelChange,
      evidence: phaseEvidence(a, b),
      riseBefore: levelChange !== null && levelChange > 0 ? riseOf(earlier.points) : 0,
      immediacy: immediacy(a, b),
      nap: nap(a, b),
      mannWhitney: mannWhitney(a, b),
      tau: tau(a, b),
      baselineCorrectedTau: baselineCorrectedTau(a, b),
      pnd: pnd(a, b),
      logOddsRatio: logOddsRatio(a, b),
      dualCriterion: dualCriterion(a, b),
      wanted,
      downward: wanted === "down" ? downward(a, b) : null,
    },
  ];
}

function riseOf(points: readonly DayPoint[]): number {
  const { reason, rise } = baselineReadiness(points);
  return reason === "rising" ? rise : 0;
}

function testDraw(
  phases: readonly PhaseSeries[],
  pairs: readonly PhasePair[],
  { permittedDays, day }: StartDraw,
) {
  const first = pairs.find(({ from }) => phases[from]?.kind === "baseline");
  const baseline = phases[first?.from ?? phases.findIndex(({ kind }) => kind === "baseline")];
  const program = first === undefined ? undefined : phases[first.to];
  if (program !== undefined && program.source !== baseline?.source)
    return notComputable("sources-differ");
  return randomizationTest(
    [baseline, program].flatMap((phase) => phase?.points ?? []),
    permittedDays,
    day,
  );
}

function countChanges(phases: readonly PhaseSeries[], fewestPoints: number): number {
  const held = phases.filter(({ points }) => points.length >= fewestPoints);
  return held.filter(({ kind }, i) => {
    const before = held[i - 1];
    return before !== undefined && (before.kind === "baseline") !== (kind === "baseline");
  }).length;
}

function cautionOn(phases: readonly PhaseSeries[], changes: number): CauseCaution {
  const held = phases.filter(({ points }) => points.length > 0);
  if (held.length < 2) return "nothing-to-compare";
  if (!held.some(({ kind }) => kind === "baseline")) return "no-baseline";
  if (countChanges(held, 1) === 0) return "nothing-to-compare";
  if (changes === 0) return "phases-too-short";
  if (changes === 1) return "one-change-cannot-show-cause";
  return changes < changesNeeded ? "fewer-than-three-changes" : "none";
}

const inTimeOrder = (points: readonly DayPoint[]): DayPoint[] =>
  [...points].sort((one, other) => one.day - other.day);

const valuesOf = (points: readonly DayPoint[]): number[] => points.map(({ value }) => value);
