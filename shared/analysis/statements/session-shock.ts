import {
  contrastWorth,
  dot,
  serialFit,
  serialForm,
} from "../../statistics/serial-least-squares.ts";
import type { Uncertainty } from "../../statistics/sum-of-variances.ts";

/** What one student's mark rate in one session leaves over a fit, and how it weighs in an estimate. */
export interface StudentResidual {
  /** When the session began; sessions of one moment are one session. */
  readonly startedAt: number;
  readonly marks: number;
  /** Rate less the fitted rate. */
  readonly left: number;
  /** Weight of one mark of this session in the estimate. */
  readonly lever: number;
}

/** Fewer sessions than this say little about what a class shares. Common practice, no source. */
const fewestSessions = 5;

/**
 * Variance of an estimate from what all students of a session share: a fire drill, a film, a hot afternoon.
 * Residuals are added up session by session, and the sessions are read as one serial record. Null where there
 * are too few.
 *
 * @param coefficients how many numbers of the class's own the fit has estimated from the sessions
 *
 * Source: see `serialFit`. Example: sharedVariance([], 2) // null
 */
export function sharedVariance(
  residuals: readonly StudentResidual[],
  coefficients: number,
): Uncertainty | null {
  const sessions = new Map<number, { marks: number; left: number; lever: number }>();
  for (const { startedAt, marks, left, lever } of residuals) {
    const sum = sessions.get(startedAt);
    if (sum === undefined) {
      sessions.set(startedAt, { marks, left: marks * left, lever: marks * lever });
    } else {
      sum.marks += marks;
      sum.left += marks * left;
      sum.lever += marks * lever;
    }
  }
  if (sessions.size < Math.max(fewestSessions, coefficients + 2)) return null;
  const ordered = [...sessions].sort(([one], [other]) => one - other).map(([, sum]) => sum);
  const scaled = ordered.map(({ marks, left }) => left / Math.sqrt(marks));
  const contrast = Float64Array.from(ordered, ({ marks, lever }) => lever / Math.sqrt(marks));
  const size = dot(contrast, contrast);
  if (size === 0) return null;
  const level = ordered.map(({ marks }) => Math.sqrt(marks));
  const levelSize = dot(level, level);
  // The level and the contrast stand for all that was fitted.
  const fit = serialFit(
    scaled,
    (r) => serialForm(level, r) / levelSize + ((coefficients - 1) * serialForm(contrast, r)) / size,
    coefficients,
  );
  const { form, degrees } = contrastWorth(contrast, fit);
  return { variance: fit.phi * form, degrees };
}
