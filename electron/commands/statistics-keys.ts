/** What each key of `cli analyse --json` means; printed with the answer and in its help. */
export const statisticsKeys = {
  "self, observer":
    "the same statistics from self-records and from observer data; null without any",
  acrossSources:
    "each phase with the one after it, by one source where both have three points of it, else each by the source with more; null unless some comparison goes across sources",
  present:
    "the trend since the last phase of the file began (phase, null without any; source), of its newest 20 sessions (recent, null when these are all of it), logistic, and whether missing marks could change what is said of it (sensitivity)",
  group:
    "the same statistics of all students together; marks of sessions that began at one moment are added up, phases are those that most students share",
  work: "per student: items of work where the file has them; null without any",
  "work.sessions":
    "one entry a session with work: line, day, assigned, completed, correct; done is completed / assigned, right is correct / completed, both at most 1, null when unknown",
  "work.assigned, completed, correct, lookedAt":
    "sums over the sessions; lookedAt is the completed items of sessions in which correct ones were counted",
  "kind: not-enough":
    "withheld because there are too few data; reason says of what, have and need how many",
  "kind: not-computable": "the number does not exist for these data; reason says why",
  "interval: lower, upper":
    "95 % interval, in the unit of the number beside it; bounds are ends that cannot be passed",
  "direction, evidence":
    "up, down or level, and how firmly it may be said: clear, probable or cannot-tell",

  reading:
    "what may be said of a student, or in group of all students together, with the error rates that npm run bench:calibration prints: phase (the present one; null without any) and source whose marks are read; trend and week within that phase, so that none crosses a phase line; phases, each with the one after it. Least squares on the sessions' rates, weighted by marks, with errors of neighboring sessions alike: their correlation is estimated, freed of its bias and drawn toward .2, which counts as 20 sessions; Student's t with degrees of freedom divided by how much the likeness adds to the variance; the variance is never below that of independent marks, and no interval has a width of zero",
  "reading.trend":
    "pointsPerWeek, percentage points per 7 days, and interval (95 %) with narrow (80 %); direction; evidence: clear if interval leaves out 0, probable if only narrow does, else cannot-tell; sessions; from and to, the first and last day and the line's rate there; days between; serial, the correlation of neighbors; degrees of freedom",
  "reading.week":
    "newest week with marks less the one before it within the present phase: points with interval and narrow; week and before are their Mondays, weeksApart 1 for neighbors; sessions in each",
  "reading.phases":
    "from and to are the labels, places where they stand in the file's order; points with interval and narrow; wanted: up from baseline to a program, down from a program to baseline, held when cues are thinned or stopped; outcome: as-wanted, against, or cannot-tell; held is as-wanted where the 90 % interval shows a fall of less than 10 points, and against where the fall is clear and that is not so; sourcesDiffer as below; rates of both with their intervals, and sessions in each",
  "reading.overall, reading.phaseRates, reading.weekRates":
    "rates of the same source with 95 % intervals that allow for alike neighbors, measured within phases, and within weeks; a week that two phases share is two entries; each with its phase, sessions and marks",
  "group.reading":
    "each student is measured against their own record, so that nothing changes because some join, leave or stay away: students counts those in it; presence says how many were there throughout, laterOnly or earlierOnly; week and phases by Mantel-Haenszel over the students with marks in both, with standardError; the variance is the largest of what the students' own sessions, the differences between students and what all students of a session share leave",
  betweenCase:
    "design-comparable standardized mean difference (Pustejovsky, Hedges and Shadish 2014): baseline against program sessions of students with three of each by one source, from three students on: g (corrected for few students) with standardError and interval by Student's t, uncorrected, degrees of freedom; fit by restricted maximum likelihood: level, effect with effectError, variances between students and within one, phi the correlation of neighbors, logLikelihood",
  flags:
    "what is pointed out about a student: kind few-sessions (have, need), few-answers (share of cues with a mark in the newest 20 sessions), rate-falling: a fall that is clear now and was clear at the end of the week before; over says of which sessions: recent (the newest 20), phase, or all; pointsPerWeek above 0 with interval; short when they span under 14 days",

  source: "whose marks these are",
  sessionsWithMarks: "sessions with at least one mark",
  counts: "all marks added up: on, off, missing",
  overall:
    "pooled rate of all sessions, with Wilson's interval on counts divided by designEffect (Rao and Scott 1992, of sessions within their weeks; at least 1; sessions taken as independent); marks, and the sessions that hold them",
  response: "share of delivered cues that have a mark",

  sessions:
    "one entry a session, oldest first: line of the file (in group startedAt, the moment of the start), phase, local day, minuteOfDay after local midnight, subject",
  "sessions.rate": "on / (on + off), with a 95 % Wilson interval",
  "sessions.missingBounds": "the rate if all missing marks were off task, and if all were on task",

  weeks:
    "one entry a school week with sessions: start (Monday) and end (Sunday), ISO year and week, sessionIds (lines of the file; in group starts in ms since 1970 UTC), its pooled rate",
  weekChange:
    "newest week with marks less the one before it (their Mondays; weeksApart is 1 for neighbors), 95 % Newcombe interval on dispersed counts with Student's t",
  trend:
    "over the whole record, from five sessions on: slopePointsPerWeek (Theil-Sen, points per 7 days) with intervalPointsPerWeek (Sen 1968, its ranks rounded to whole ones), line from the first day to the last; p and tau of Mann-Kendall, with s and its variance sVariance, by method (exact or normal), variance widened by serialFactor; allAlike when all rates are equal; days from the first to the last",
  logistic:
    "log odds on weeks since the first session: intercept and slope with interceptError and slopeError (standard errors) and the slope's 95 % interval by Student's t; method quasi-binomial, with dispersion (Pearson's, null for firth), deviance, nullDeviance and degrees of freedom; or firth, a penalised fit, where marks are all on or all off to one side; then deviance is that of the penalised fit, while nullDeviance stays that of one rate for all by plain maximum likelihood, and can be the smaller of the two",
  patterns:
    "rates by local hour, weekday (1 is Monday) and subject: overall rate, between (standard deviation between kinds, chance taken off), and kinds, each with its key, rate, and shrunkRate: drawn toward the overall rate by how little it rests on",
  sensitivity:
    "whether missing marks could change what is said of the rate (bounds) and of the week change: asRecorded, and supposed, one reading for each supposition about the missing marks; of the trend see present",

  phaseRates:
    "pooled rate of each phase by its label; a phase is a run of sessions with the same phase field",
  "present.phase": "kind and label of the last phase, and the day it startsOn",

  "phases.phases.level": "mean and median of the sessions' rates",
  "phases.phases.trend":
    "slopePerWeek (Theil-Sen, per 7 days) with interval and intercept, tau-b with time, two-sided Mann-Kendall probability, corrected for likeness of neighbors",
  "phases.phases.spread":
    "standardDeviation (of a sample), lowest and highest of the sessions' rates",
  "phases.phases.standard":
    "number of points against the single-case standard: 5 meets, 3 with reservations",
  "phases.phases.readiness":
    "for baselines: decision, is there enough to begin the program (missingFromFewest, missingFromWanted points), and does it rise already (rise, risingProbability one-sided)",
  "phases.comparisons.from, to":
    "each phase with the one after it, by their places in phases.phases",
  "phases.comparisons.sourcesDiffer":
    "one phase was observed and the other self-recorded: part of the change may be the recorder's",
  "phases.comparisons.levelChange": "mean of the later phase less mean of the earlier",
  "phases.comparisons.evidence":
    "clear, probable or cannot-tell: the weaker of NAP's intervals and the exact p; null under three points",
  "phases.comparisons.riseBefore":
    "how much the earlier phase rose by itself, 0 to 1, where the later one is higher; else 0",
  "phases.comparisons.immediacy":
    "mean of the first three points less mean of the last three before the change",
  "phases.comparisons.nap":
    "nonoverlap of all pairs, 0 to 1, .5 is no difference; Newcombe's score interval",
  "phases.comparisons.mannWhitney":
    "u, and its two-sided p: exact up to 60 points, ties included, else normal",
  "phases.comparisons.tau": "2 NAP - 1",
  "phases.comparisons.baselineCorrectedTau":
    "tau-b of phase and value; corrected when the earlier phase's trend is significant at .05 (trendProbability), slopeTakenOff a session (Tarlow 2017)",
  "phases.comparisons.pnd": "share of later points above the highest earlier one, 0 to 1",
  "phases.comparisons.logOddsRatio":
    "log odds of the mean rates, with standardError and interval (normal); smallSampleInterval by Student's t with Satterthwaite's degrees of freedom, to be preferred under about ten points a phase",
  "phases.comparisons.dualCriterion":
    "level and least-squares lines carried on (trendInA, trendInB: their height at each point), points above both, how many are needed (binomial, .05) and the decision; dual: lines as they are; conservative: raised by .25 standard deviation",
  "phases.comparisons.wanted, downward":
    "up from a baseline, down back to one, else held; where down is wanted, downward holds pnd (share of later points below the lowest earlier one) and dualCriterion with its lines lowered and above counting the points below both; else null",
  "phases.randomization":
    "exact test over the permitted days the start was drawn from: difference of the means, probability (share that give as great a rise) and twoSidedProbability; null without a draw",
  "phases.changes, phases.caution":
    "changes between baseline and program, and what so many can show about cause",
} as const;
