import { type AgreementSummary, recordsFlatter } from "../agreement/agreement-summary.ts";
import { marked } from "../analysis/rate.ts";
import type { Counts, Source } from "../record/session-count.ts";
import { chanceRule, hasEnoughMarks, type Judged, judge } from "./goal-chance.ts";
import { type Ladder, lastPlace, type Rung, rungAt } from "./ladder.ts";
import { type WorkTrend, workFalls } from "./work-done.ts";

/** Every other number the advice turns on, in one place. Shares are from 0 to 1. */
export const adviceThresholds = {
  /** The goal holds when the rate is at or above it with this probability ... */
  holds: 0.9,
  /** ... and is missed when with no more than this. Our own choice, held by simulation. */
  missed: 0.1,
  /**
   * When points are paid, one of the last three sessions must have had a spot check. That unchecked,
   * paid self-records grow flattering: Hundert & Bucher (1978) J Appl Behav Anal 11:304. The count of
   * three: common practice, no source.
   */
  checkedWithin: 3,
  /** So much less than in the sessions before is a fall too. Common practice, no source. */
  fall: 0.1,
  /** Days at one step, first and last counted, after which a decision is due: Monday to the Friday after. */
  twoWeeks: 12,
  /** After so many sessions at one step without rising above baseline, ask a specialist ... */
  stuckAfter: 10,
  /** ... where rising means at least this much. Common practice, no source. */
  smallestRise: 0.05,
} as const;

/** What the advice is drawn from; the result carries it along so that a screen can show it. */
export interface AdviceInputs {
  readonly ladder: Ladder;
  /** Where the student stands on the ladder; 0 is the densest cues. */
  readonly place: number;
  /** On-task rate to hold, 0 to 1. */
  readonly goal: number;
  /** Sessions at this place, oldest first. */
  readonly sessions: readonly Counts[];
  /** Days from the first of these sessions to the newest, both counted; 0 without any. */
  readonly daysHere: number;
  /** Who recorded them; an observer's looks need no check and earn no points. */
  readonly source: Source;
  /** Recent spot checks of this student's own records. */
  readonly agreement: Pick<AgreementSummary, "table" | "percent" | "level" | "reading" | "mcNemar">;
  /** Sessions held since the one with the last spot check: 0 when the newest had one, null when none had. */
  readonly sessionsSinceCheck: number | null;
  readonly pointsPaid: boolean;
  /** Mean baseline rate, 0 to 1, by who recorded it; null when there is none. Never one for the other. */
  readonly baseline: Readonly<Record<Source, number | null>>;
  /** Work done lately and before; null where too little was written down. */
  readonly work: WorkTrend | null;
}

export const adviceDecisions = [
  "not-enough-data",
  "check-match",
  "step-back",
  /** Below the goal where no denser step is left: what else changed, then target, task and points. */
  "ask-what-changed",
  /** Held, and yet less of the work gets done. */
  "look-at-work",
  "keep-going",
  "thin-cues",
  /** Every step past the last cue: record without cues, own praise, probes. */
  "end-cues-and-probe",
  /** Neither held nor missed after two weeks: thin, probe, stop or ask for help. */
  "two-weeks-over",
] as const;
export type AdviceDecision = (typeof adviceDecisions)[number];

export type AdviceReason =
  | "no-sessions"
  | "few-sessions"
  /** Of the last three sessions one has marks at fewer than half its cues. */
  | "few-answers"
  /** All sessions here together hold too few answered cues. */
  | "few-cues"
  | "points-without-checks"
  | "match-low"
  | "records-flatter"
  /** Held, and the checks cannot tell whether the record matches. */
  | "match-unknown"
  /** Too few checks to tell, and every one of them matches. */
  | "few-matching-checks"
  /** Held, yet under the sessions before, and the checks cannot tell: nothing moves until it settles. */
  | "goal-held-while-falling"
  | "below-goal"
  /** Below with no denser step to go back to. */
  | "below-goal-at-first-step"
  | "goal-held"
  /** The checks cannot tell how well the record matches, and they alone say that the goal holds. */
  | "goal-held-as-seen"
  /** Held where there is nothing left to take away: keep probing. */
  | "goal-held-at-last-step"
  | "work-falls"
  | "goal-not-yet-held"
  | "undecided-for-two-weeks";

export interface Advice {
  readonly decision: AdviceDecision;
  readonly reason: AdviceReason;
  readonly rung: Rung;
  /** Where the decision leads; the present place when nothing moves. */
  readonly toPlace: number;
  readonly toRung: Rung;
  /** The rate does not move: time to ask a school psychologist or behaviour specialist. */
  readonly askSpecialist: boolean;
  /** The newest sessions that decide, of those with enough marks. */
  readonly judged: Judged;
  readonly inputs: AdviceInputs;
}

/**
 * What next: a rule whose inputs are shown and which the teacher may overrule. It turns on the probability
 * that the rate is at or above the goal, from the newest three sessions or more (`judge`). The first that
 * applies:
 *
 * 1. no marks at all: not enough data;
 * 2. the record does not fall, and points are paid and no spot check was made lately, or record and checks
 *    match too rarely, or the record flatters: the match first. Never where every check matches, or where
 *    they match well or fairly;
 * 3. fewer than three sessions at this step, too few answers in one of the last three, or fewer than thirty
 *    answered cues in all: not enough data;
 * 4. at or above the goal with probability .1 or less: step back, or ask what changed where no denser step
 *    is left;
 * 5. with .9 or more: the next step, unless less work gets done, and once the checks say that the record
 *    matches, or by themselves that the goal holds; until they do, the match first, or keep going where the
 *    record falls or every check matches;
 * 6. neither, two weeks after the step began: a decision is due;
 * 7. otherwise keep going.
 *
 * A record falls when it is below the goal as in 4, whatever it rests on, or ten percentage points or more
 * under the sessions before it here. Where an observer recorded, as in probes once the cues have ended, 2
 * and the checks of 5 fall away.
 *
 * At a true rate ten points under the goal cues are thinned within ten sessions in about one case in
 * twenty or fewer (tests/bench/calibration/advice.ts). The order of the steps is common practice, no source.
 *
 * Example: advise(inputs).decision // "keep-going"
 *
 * @throws RangeError when the place is not on the ladder or the goal is not from 0 to 1.
 */
export function advise(inputs: AdviceInputs): Advice {
  const { ladder, place } = inputs;
  const rung = rungAt(ladder, place);
  const held = inputs.sessions.filter(isOfStudent);
  const judged = judge(held, inputs.goal);
  const { decision, reason } = decide(inputs, held, judged);
  const toPlace = destination(decision, place);
  return {
    decision,
    reason,
    rung,
    toPlace,
    toRung: rungAt(ladder, toPlace),
    askSpecialist: isStuck(inputs.baseline[inputs.source], held, judged),
    judged,
    inputs,
  };
}

type Decided = Pick<Advice, "decision" | "reason">;

function decide(inputs: AdviceInputs, held: readonly Counts[], judged: Judged): Decided {
  if (!inputs.sessions.some((counts) => marked(counts) > 0))
    return { decision: "not-enough-data", reason: "no-sessions" };
  const doubt = falls(held, judged) ? undefined : doubtOfMatch(inputs);
  if (doubt !== undefined) return { decision: "check-match", reason: doubt };
  const lacking = whatIsLacking(held, judged);
  if (lacking !== undefined) return { decision: "not-enough-data", reason: lacking };

  const chance = judged.chance ?? 0;
  if (chance <= adviceThresholds.missed) return below(inputs);
  if (chance >= adviceThresholds.holds) return holds(inputs, falls(held, judged));
  const isDue = inputs.daysHere >= adviceThresholds.twoWeeks;
  return isDue && inputs.place < lastPlace(inputs.ladder)
    ? { decision: "two-weeks-over", reason: "undecided-for-two-weeks" }
    : { decision: "keep-going", reason: "goal-not-yet-held" };
}

function whatIsLacking(held: readonly Counts[], judged: Judged): AdviceReason | undefined {
  if (held.length < chanceRule.fewestSessions) return "few-sessions";
  // What is not known of the newest sessions, older ones cannot stand for.
  if (!held.slice(-chanceRule.fewestSessions).every(hasEnoughMarks)) return "few-answers";
  return judged.marks < chanceRule.fewestMarks ? "few-cues" : undefined;
}

/** A record that falls flatters nobody. */
function falls(held: readonly Counts[], { rates, rate, chance }: Judged): boolean {
  if (rate === null || chance === null) return false;
  const older = held.filter(hasEnoughMarks).slice(0, -rates.length);
  const marks = older.reduce((sum, counts) => sum + marked(counts), 0);
  const before = marks === 0 ? null : older.reduce((sum, { on }) => sum + on, 0) / marks;
  const hasFallen = before !== null && before - rate >= adviceThresholds.fall - 1e-9;
  return chance <= adviceThresholds.missed || hasFallen;
}

function doubtOfMatch(inputs: AdviceInputs): AdviceReason | undefined {
  const { agreement, pointsPaid, sessionsSinceCheck, source } = inputs;
  if (source === "observer" || matchesThroughout(agreement)) return undefined;
  const { match } = agreement.reading;
  if (match === "low") return "match-low";
  if (recordsFlatter(agreement)) return "records-flatter";
  if (match !== "cannot-tell" || !pointsPaid) return undefined;
  const isChecked =
    sessionsSinceCheck !== null && sessionsSinceCheck < adviceThresholds.checkedWithin;
  return isChecked ? undefined : "points-without-checks";
}

function below({ place }: AdviceInputs): Decided {
  return place > 0
    ? { decision: "step-back", reason: "below-goal" }
    : { decision: "ask-what-changed", reason: "below-goal-at-first-step" };
}

function holds(inputs: AdviceInputs, isFalling: boolean): Decided {
  const { agreement, ladder, place, source, work } = inputs;
  if (place === lastPlace(ladder))
    return { decision: "keep-going", reason: "goal-held-at-last-step" };
  if (workFalls(work)) return { decision: "look-at-work", reason: "work-falls" };
  const cuesRemain = place + 1 < ladder.cueSteps;
  const thin = (reason: AdviceReason): Decided => ({
    decision: cuesRemain ? "thin-cues" : "end-cues-and-probe",
    reason,
  });
  if (source === "observer" || agreement.reading.match !== "cannot-tell") return thin("goal-held");
  if (isSeenToHold(inputs)) return thin("goal-held-as-seen");
  if (matchesThroughout(agreement))
    return { decision: "keep-going", reason: "few-matching-checks" };
  return isFalling
    ? { decision: "keep-going", reason: "goal-held-while-falling" }
    : { decision: "check-match", reason: "match-unknown" };
}

/** Whether what the adult saw at the checks says by itself that the goal holds, whatever was recorded. */
function isSeenToHold({ agreement: { level, table }, goal }: AdviceInputs): boolean {
  if (level === "too-few-checks") return false;
  const on = table.bothOn + table.secondOnly;
  const { chance } = judge([{ on, off: table.compared - on, missing: 0 }], goal);
  return chance !== null && chance >= adviceThresholds.holds;
}

function matchesThroughout({ percent }: AdviceInputs["agreement"]): boolean {
  return percent.kind === "computed" && percent.matching === percent.compared;
}

function destination(decision: AdviceDecision, place: number): number {
  if (decision === "step-back") return place - 1;
  return decision === "thin-cues" || decision === "end-cues-and-probe" ? place + 1 : place;
}

function isStuck(baseline: number | null, held: readonly Counts[], { rate }: Judged): boolean {
  if (baseline === null || rate === null) return false;
  if (held.filter(hasEnoughMarks).length < adviceThresholds.stuckAfter) return false;
  return rate < baseline + adviceThresholds.smallestRise;
}

/** Whether the student was asked at all: who was away all the time was not. */
const isOfStudent = (counts: Counts): boolean => marked(counts) + counts.missing > 0;
