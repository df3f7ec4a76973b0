import type { Counts } from "../record/session-count.ts";
import { marked } from "./rate.ts";

/** Fewer sessions of a student than this say little about how days differ. Common practice, no source. */
const fewestSessions = 5;

/**
 * How much students' true rates differ from session to session, as a standard deviation of shares: the
 * between-session component of an analysis of variance of the single marks, (MSB - MSW) / n0 with n0 the
 * marks a session is worth, added up over students by their degrees of freedom. Marks that follow each other
 * in a bout of work count as alike too, so it is rather too large than too small. Null unless a student has
 * five sessions with marks.
 *
 * `students` are lists of sessions of one student each, with one underlying rate.
 *
 * Source: the analysis-of-variance estimator, as in Ridout MS, Demetrio CGB, Firth D (1999) Estimating
 * intraclass correlation for binary data, Biometrics 55:137-148 (from memory; checked against R's anova).
 * Example: daySpread([sessions]) // 0.12
 */
export function daySpread(students: readonly (readonly Counts[])[]): number | null {
  let variance = 0;
  let degrees = 0;
  for (const sessions of students) {
    const found = betweenSessions(sessions.filter((counts) => marked(counts) > 0));
    if (found === null) continue;
    variance += found.variance * found.degrees;
    degrees += found.degrees;
  }
  return degrees === 0 ? null : Math.sqrt(Math.max(0, variance / degrees));
}

function betweenSessions(sessions: readonly Counts[]) {
  const total = sessions.reduce((sum, counts) => sum + marked(counts), 0);
  const degrees = sessions.length - 1;
  if (sessions.length < fewestSessions || total <= sessions.length) return null;
  const rate = sessions.reduce((sum, { on }) => sum + on, 0) / total;
  let between = 0;
  let within = 0;
  let squares = 0;
  for (const counts of sessions) {
    const marks = marked(counts);
    const own = counts.on / marks;
    between += marks * (own - rate) ** 2;
    within += marks * own * (1 - own);
    squares += marks ** 2;
  }
  const worth = (total - squares / total) / degrees;
  const variance = (between / degrees - within / (total - sessions.length)) / worth;
  return { variance, degrees };
}
