import type { PhaseKind } from "../../phase/phase.ts";
import type { Source } from "../types.ts";
import { baselineCorrectedTau } from "./baseline-corrected-tau.ts";
import { type BaselineReadiness, baselineReadiness } from "./baseline-readiness.ts";
import { dualCriterion } from "./dual-criterion.ts";
import { immediacy } from "./immediacy.ts";
import { level } from "./level.ts";
import { logOddsRatio } from "./log-odds-ratio.ts";
import { nap } from "./nap.ts";
import { pnd } from "./pnd.ts";
import { type PointsStandard, pointsStandard } from "./points-standard.ts";
import { randomizationTest } from "./randomization-test.ts";
import { spread } from "./spread.ts";
import { tau } from "./tau.ts";
import { type DayPoint, phaseTrend } from "./trend.ts";

/** A stretch of days under one condition, with its on-task rates from 0 to 1. */
export type PhaseSeries = {
  readonly kind: PhaseKind;
  readonly label: string;
  /** Who recorded these points; never both. */
  readonly source: Source;
  readonly points: readonly DayPoint[];
};

/** The days from which the program's first day was drawn, and the one drawn. */
export type StartDraw = {
  readonly permittedDays: readonly number[];
  readonly day: number;
};

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
  | "none";

export type PhaseDescription = {
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
};

/** Two neighbouring phases compared; `from` and `to` are places in the list of phases. */
export type PhaseComparison = {
  readonly from: number;
  readonly to: number;
  /** One phase was observed and the other self-recorded: part of the change may be the recorder's. */
  readonly sourcesDiffer: boolean;
  /** Mean of the later phase less mean of the earlier; null where one is empty. */
  readonly levelChange: number | null;
  readonly immediacy: ReturnType<typeof immediacy>;
  readonly nap: ReturnType<typeof nap>;
  readonly tau: ReturnType<typeof tau>;
  readonly baselineCorrectedTau: ReturnType<typeof baselineCorrectedTau>;
  readonly pnd: ReturnType<typeof pnd>;
  readonly logOddsRatio: ReturnType<typeof logOddsRatio>;
  readonly dualCriterion: ReturnType<typeof dualCriterion>;
};

export type PhaseSummary = {
  readonly phases: readonly PhaseDescription[];
  readonly comparisons: readonly PhaseComparison[];
  /** Present only when the start day was drawn. */
  readonly randomization: ReturnType<typeof randomizationTest> | null;
  /** Changes between baseline and program, in either direction. */
  readonly changes: number;
  readonly caution: CauseCaution;
};

/** Attempts at showing the effect, at as many points in time, that a design needs. */
const changesNeeded = 3;

/**
 * Describes each phase and compares each with the one after it. Phases are in time order; points within
 * a phase are put in time order here.
 *
 * The caution follows What Works Clearinghouse, Single-Case Designs Technical Documentation 1.0
 * (Kratochwill et al. 2010): at least three attempts to show the effect at three points in time. One
 * baseline followed by one program phase is not such a design.
 *
 * The randomization test, when the start day was drawn, takes the points of the first baseline and of
 * the program phase after it; later phases came under other decisions.
 */
export function phaseSummary(phases: readonly PhaseSeries[], draw?: StartDraw): PhaseSummary {
  const ordered = phases.map((phase) => ({ ...phase, points: inTimeOrder(phase.points) }));
  const changes = countChanges(ordered);
  return {
    phases: ordered.map(describe),
    comparisons: ordered.slice(1).map((later, i) => compare(ordered, later, i)),
    randomization: draw === undefined ? null : testDraw(ordered, draw),
    changes,
    caution: cautionOn(ordered, changes),
  };
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

function compare(
  phases: readonly PhaseSeries[],
  later: PhaseSeries,
  from: number,
): PhaseComparison {
  const a = valuesOf(phases[from]?.points ?? []);
  const b = valuesOf(later.points);
  const before = level(a);
  const after = level(b);
  const known = before.kind === "computed" && after.kind === "computed";
  return {
    from,
    to: from + 1,
    sourcesDiffer: phases[from]?.source !== later.source,
    levelChange: known ? after.mean - before.mean : null,
    immediacy: immediacy(a, b),
    nap: nap(a, b),
    tau: tau(a, b),
    baselineCorrectedTau: baselineCorrectedTau(a, b),
    pnd: pnd(a, b),
    logOddsRatio: logOddsRatio(a, b),
    dualCriterion: dualCriterion(a, b),
  };
}

function testDraw(phases: readonly PhaseSeries[], { permittedDays, day }: StartDraw) {
  const first = phases.findIndex(({ kind }) => kind === "baseline");
  const pair = first < 0 ? [] : phases.slice(first, first + 2);
  return randomizationTest(
    pair.flatMap(({ points }) => points),
    permittedDays,
    day,
  );
}

function countChanges(phases: readonly PhaseSeries[]): number {
  const held = phases.filter(({ points }) => points.length > 0);
  return held.filter(({ kind }, i) => {
    const before = held[i - 1];
    return before !== undefined && (before.kind === "baseline") !== (kind === "baseline");
  }).length;
}

function cautionOn(phases: readonly PhaseSeries[], changes: number): CauseCaution {
  const held = phases.filter(({ points }) => points.length > 0);
  if (held.length < 2) return "nothing-to-compare";
  if (!held.some(({ kind }) => kind === "baseline")) return "no-baseline";
  if (changes === 0) return "nothing-to-compare";
  if (changes === 1) return "one-change-cannot-show-cause";
  return changes < changesNeeded ? "fewer-than-three-changes" : "none";
}

const inTimeOrder = (points: readonly DayPoint[]): DayPoint[] =>
  [...points].sort((one, other) => one.day - other.day);

const valuesOf = (points: readonly DayPoint[]): number[] => points.map(({ value }) => value);
