import { dayText } from "../../calendar/calendar.ts";
import type { SessionCount } from "../../record/session-count.ts";
import { notEnough, type Result } from "../../statistics/result.ts";
import { serialForm, serialPrior } from "../../statistics/serial-least-squares.ts";
import { sumOfVariances } from "../../statistics/sum-of-variances.ts";
import { fewestSessionsForTrend } from "../trend.ts";
import { markVariance, type RatePoint, ratePoints } from "./points.ts";
import { varianceOverStudents, weightedMean, widest } from "./pooled-variance.ts";
import { type StudentResidual, sharedVariance } from "./session-shock.ts";
import { fitSlope } from "./slope.ts";
import { type Stated, stateEstimate } from "./statement.ts";

/** How a class's students move, each measured against their own mean. */
export interface ClassTrendStatement extends Stated {
  readonly pointsPerWeek: number;
  /** Students whose own change is in it. */
  readonly students: number;
  /** Sessions in which any of them has marks. */
  readonly sessions: number;
  readonly from: { readonly day: string };
  readonly to: { readonly day: string };
  readonly days: number;
  readonly degrees: number;
  readonly presence: Presence;
}

/** Who was there: students with marks in both halves of the days, or in one only. */
export interface Presence {
  readonly throughout: number;
  readonly laterOnly: number;
  readonly earlierOnly: number;
}

/** One student's line, or what two sessions tell of one. */
interface StudentLine {
  readonly points: readonly RatePoint[];
  readonly day: number;
  readonly rate: number;
  readonly slope: number;
  /** Sum of marks times squared days from the student's middle day. */
  readonly weight: number;
  readonly phi: number;
  readonly phiDegrees: number;
  /** Variance of the slope for scatter 1, and its degrees of freedom. */
  readonly variance: number;
  readonly degrees: number;
}

/**
 * The common slope of a class within one phase: every student has a level of their own, and the slope is that of the
 * marks around it, so nothing changes because students join, leave or stay away.
 *
 * Its variance is the largest of three: what the students' own scatter and alike neighbours leave, how far
 * students' slopes lie apart (from five students on), and what all students of a session share.
 *
 * @param students each student's sessions of one source within the phase
 *
 * Source: the fixed-effects (within) estimator; see `serialFit`, `varianceOverStudents`.
 * Example: classTrend([]) // not-enough, "few-sessions"
 */
export function classTrend(
  students: readonly (readonly SessionCount[])[],
): Result<ClassTrendStatement> {
  const all = students.map(ratePoints).filter((points) => points.length > 0);
  const moments = new Set(all.flat().map(({ session }) => session.startedAt));
  if (moments.size < fewestSessionsForTrend) {
    return notEnough("few-sessions", moments.size, fewestSessionsForTrend);
  }
  const lines = all.flatMap(lineOf);
  if (lines.length === 0) return notEnough("few-days", 1, 2);
  const weights = lines.map(({ weight }) => weight);
  const slopes = lines.map(({ slope }) => slope);
  const slope = weightedMean(weights, slopes);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const scatter = commonScatter(lines);
  const { variance, degrees } = widest([
    sumOfVariances(
      lines.map((line) => ({
        variance: (line.weight / total) ** 2 * line.variance * scatter,
        degrees: line.degrees,
      })),
    ),
    varianceOverStudents(weights, slopes),
    sharedVariance(
      lines.flatMap((line) => residualsOf(line, slope, total)),
      2,
    ),
  ]);
  const days = all.flat().map(({ day }) => day);
  const [first, last] = [least(days), most(days)];
  return {
    kind: "enough",
    pointsPerWeek: slope * 700 + 0,
    ...stateEstimate(slope * 700, Math.sqrt(variance) * 700, degrees),
    students: lines.length,
    sessions: moments.size,
    from: { day: dayText(first) },
    to: { day: dayText(last) },
    days: last - first,
    degrees,
    presence: presenceIn(all, (first + last) / 2),
  };
}

function lineOf(points: readonly RatePoint[]): StudentLine[] {
  const fitted = fitSlope(points);
  if (fitted !== null) {
    const { slope, middle, leverage, fit, standardError, degrees } = fitted;
    const variance = standardError ** 2 / Math.max(1, fit.phi);
    return [
      {
        points,
        ...middle,
        slope,
        weight: leverage,
        variance,
        degrees,
        phi: fit.phi,
        phiDegrees: fit.degrees,
      },
    ];
  }
  const [one, other] = points;
  if (one === undefined || other === undefined || one.day === other.day) return [];
  return [betweenTwo(one, other)];
}

/** Two sessions have a slope, and no scatter of their own to judge it by. */
function betweenTwo(one: RatePoint, other: RatePoint): StudentLine {
  const marks = one.marks + other.marks;
  const day = (one.marks * one.day + other.marks * other.day) / marks;
  const lever = [one, other].map((point) => Math.sqrt(point.marks) * (point.day - day));
  const weight = lever.reduce((sum, each) => sum + each * each, 0);
  const form = serialForm(lever, serialPrior.correlation);
  return {
    points: [one, other],
    day,
    rate: (one.on + other.on) / marks,
    slope: (other.on / other.marks - one.on / one.marks) / (other.day - one.day),
    weight,
    variance: (markVariance([one, other]) * Math.max(weight, form)) / (weight * weight),
    degrees: 1,
    phi: 1,
    phiDegrees: 0,
  };
}

/** One scatter for the class, because each student's own is measured on few sessions; at least 1. */
function commonScatter(lines: readonly Pick<StudentLine, "phi" | "phiDegrees">[]): number {
  const degrees = lines.reduce((sum, { phiDegrees }) => sum + phiDegrees, 0);
  if (degrees === 0) return 1;
  return Math.max(1, lines.reduce((sum, line) => sum + line.phi * line.phiDegrees, 0) / degrees);
}

function residualsOf(line: StudentLine, slope: number, total: number): StudentResidual[] {
  return line.points.map(({ session, day, on, marks }) => ({
    startedAt: session.startedAt,
    marks,
    left: on / marks - line.rate - slope * (day - line.day),
    lever: (day - line.day) / total,
  }));
}

/** Who has marks before the middle day, after it, or both. */
function presenceIn(students: readonly (readonly RatePoint[])[], middle: number): Presence {
  let [throughout, laterOnly, earlierOnly] = [0, 0, 0];
  for (const points of students) {
    const early = points.some(({ day }) => day <= middle);
    const late = points.some(({ day }) => day > middle);
    if (early && late) throughout += 1;
    else if (late) laterOnly += 1;
    else earlierOnly += 1;
  }
  return { throughout, laterOnly, earlierOnly };
}

const least = (values: readonly number[]) => values.reduce((a, b) => Math.min(a, b));
const most = (values: readonly number[]) => values.reduce((a, b) => Math.max(a, b));
