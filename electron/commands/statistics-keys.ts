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

  source: "whose marks these are",
  sessionsWithMarks: "sessions with at least one mark",
  counts: "all marks added up: on, off, missing",
  overall:
    "pooled rate of all sessions, with Wilson's interval on counts divided by the design effect (likeness within sessions; at least 1)",
  response: "share of delivered cues that have a mark",

  sessions:
    "one entry a session, oldest first: line of the file (in group the moment of the start), phase, local day and minute, subject",
  "sessions.rate": "on / (on + off), with a 95 % Wilson interval",
  "sessions.missingBounds": "the rate if all missing marks were off task, and if all were on task",

  weeks: "one entry a school week (Monday to Sunday) with sessions, with its pooled rate",
  weekChange:
    "newest week less the week before it, 95 % Newcombe interval on dispersed counts; evidence: clear, probable or cannot-tell",
  trend:
    "Theil-Sen slope in points per 7 days with interval; p and tau of Mann-Kendall, variance widened by serialFactor; from five sessions on",
  logistic:
    "quasi-binomial logistic regression on weeks since the first session; a penalised fit where marks are all on or all off to one side",
  patterns:
    "rates by local hour, weekday (1 is Monday) and subject, drawn towards the overall rate by how little they rest on",
  sensitivity:
    "whether missing marks could change what is said of the rate and the week change; of the trend see present",

  phaseRates: "pooled rate of each phase; a phase is a run of sessions with the same phase field",

  "phases.phases.level": "mean and median of the sessions' rates",
  "phases.phases.trend":
    "Theil-Sen slope per 7 days with interval, tau-b with time, two-sided Mann-Kendall probability",
  "phases.phases.spread": "sample standard deviation and range of the sessions' rates",
  "phases.phases.standard":
    "number of points against the single-case standard: 5 meets, 3 with reservations",
  "phases.phases.readiness":
    "for baselines: is there enough to begin the program, and does it rise already",
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
    "tau-b of phase and value, the earlier phase's trend taken off when it is significant at .05 (Tarlow 2017)",
  "phases.comparisons.pnd": "share of later points above the highest earlier one, 0 to 1",
  "phases.comparisons.logOddsRatio": "log odds of the mean rates, with standard error and interval",
  "phases.comparisons.dualCriterion":
    "mean and least-squares lines carried on; points above both, and how many are needed (binomial, .05); conservative: lines raised by .25 standard deviation",
  "phases.randomization":
    "exact test over the days the start was drawn from: share that give as great a difference; null without a draw",
  "phases.changes, phases.caution":
    "changes between baseline and program, and what so many can show about cause",
} as const;
