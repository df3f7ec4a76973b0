import { type AgreementSummary, recordsFlatter } from "../agreement/agreement-summary.ts";
import { marked } from "../analysis/rate.ts";
import type { Counts, Source } from "../record/session-count.ts";
import { type Ladder, lastPlace, type Rung, rungAt } from "./ladder.ts";

/** Every number the advice turns on, in one place. Shares are from 0 to 1. */
export const adviceThresholds = {
  /** Sessions running that decide: the goal held, or missed, in each. Common practice, no source. */
  sessionsJudged: 3,
  /** A session counts when at least this share of its cues has a mark. Common practice, no source. */
  fewestMarked: 0.5,
  /**
   * When points are paid, one of the last three sessions must have had a spot check. That unchecked,
   * paid self-records grow flattering: Hundert & Bucher (1978) J Appl Behav Anal 11:304. The count of
   * three: common practice, no source.
   */
  checkedWithin: 3,
  /** Missing the goal by this much in each judged session is a fall. Common practice, no source. */
  fallBelowGoal: 0.1,
  /** After so many sessions at one step without rising above baseline, ask a specialist ... */
  stuckAfter: 10,
  /** ... where rising means at least this much. Common practice, no source. */
  smallestRise: 0.05,
} as const;

/** What the advice is drawn from; the result carries it along so that a screen can show it. */
export type AdviceInputs = {
  readonly ladder: Ladder;
  /** Where the student stands on the ladder; 0 is the densest cues. */
  readonly place: number;
  /** On-task rate to hold, 0 to 1. */
  readonly goal: number;
  /** Sessions at this place, oldest first. */
  readonly sessions: readonly Counts[];
  /** Who recorded them; an observer's looks need no check and earn no points. */
  readonly source: Source;
  /** Recent spot checks of this student's own records. */
  readonly agreement: Pick<AgreementSummary, "percent" | "level" | "reading" | "mcNemar">;
  /** Sessions held since the one with the last spot check: 0 when the newest had one, null when none had. */
  readonly sessionsSinceCheck: number | null;
  readonly pointsPaid: boolean;
  /** Mean baseline rate, 0 to 1, by who recorded it; null when there is none. Never one for the other. */
  readonly baseline: Readonly<Record<Source, number | null>>;
};

export type AdviceDecision =
  | "not-enough-data"
  | "check-match"
  | "step-back"
  /** Below the goal where no denser step is left: what else changed, then target, task and points. */
  | "ask-what-changed"
  | "keep-going"
  | "thin-cues"
  /** Every step past the last cue: record without cues, own praise, probes. */
  | "end-cues-and-probe";

export type AdviceReason =
  | "no-sessions"
  | "few-sessions"
  /** Of the last three sessions one has marks at fewer than half its cues. */
  | "few-answers"
  | "points-without-checks"
  | "agreement-below-80"
  | "records-flatter"
  | "few-checks-to-thin"
  /** Too few as well, and every one of them matches. */
  | "few-matching-checks-to-thin"
  | "goal-missed"
  /** Missed as clearly, with no denser step to go back to. */
  | "goal-missed-at-first-step"
  | "goal-held"
  /** Held where there is nothing left to take away: keep probing. */
  | "goal-held-at-last-step"
  | "goal-not-yet-held";

export type Advice = {
  readonly decision: AdviceDecision;
  readonly reason: AdviceReason;
  readonly rung: Rung;
  /** Where the decision leads; the present place when nothing moves. */
  readonly toPlace: number;
  readonly toRung: Rung;
  /** The rate does not move: time to ask a school psychologist or behaviour specialist. */
  readonly askSpecialist: boolean;
  /** Rates of the newest three sessions, oldest first, of those with enough marks. */
  readonly judgedRates: readonly number[];
  readonly inputs: AdviceInputs;
};

/**
 * What next: a rule whose inputs are shown and which the teacher may overrule. The first that applies:
 *
 * 1. no marks at all: not enough data;
 * 2. points are paid and no spot check was made lately: the match first;
 * 3. agreement below 80 %, or records that flatter: the match first;
 * 4. fewer than three sessions at this step, or too few answers in one of the last three: not enough data;
 * 5. the goal clearly missed three sessions running: step back, or ask what changed where no denser step
 *    is left;
 * 6. the goal held three sessions running: the next step, once enough checks say that the records match;
 * 7. otherwise keep going.
 *
 * 2 and 3 never meet a record that falls, because such a record flatters nobody, nor one that matches
 * every check that there is.
 *
 * Where an observer recorded, as in probes once the cues have ended, 2, 3 and the checks of 6 fall away.
 *
 * Thinning after three held sessions with agreement at 80 % or more is common practice, no source; the
 * thresholds say where each number comes from.
 *
 * @throws RangeError when the place is not on the ladder or the goal is not from 0 to 1.
 */
export function advise(inputs: AdviceInputs): Advice {
  const { ladder, place, goal } = inputs;
  if (!(goal >= 0 && goal <= 1)) throw new RangeError(`A goal lies between 0 and 1; got ${goal}.`);
  const rung = rungAt(ladder, place);
  const held = inputs.sessions.filter(isOfStudent);
  const rates = ratesOf(held);
  const judgedRates = ratesOf(held.slice(-adviceThresholds.sessionsJudged));
  const { decision, reason } = decide(inputs, held.length, judgedRates);
  const toPlace = destination(decision, place);
  return {
    decision,
    reason,
    rung,
    toPlace,
    toRung: rungAt(ladder, toPlace),
    askSpecialist: isStuck(inputs.baseline[inputs.source], rates, judgedRates),
    judgedRates,
    inputs,
  };
}

type Decided = Pick<Advice, "decision" | "reason">;

function decide(inputs: AdviceInputs, sessions: number, judged: readonly number[]): Decided {
  if (!inputs.sessions.some((counts) => marked(counts) > 0))
    return { decision: "not-enough-data", reason: "no-sessions" };
  const doubt = falls(inputs) ? undefined : doubtOfMatch(inputs);
  if (doubt !== undefined) return { decision: "check-match", reason: doubt };
  if (sessions < adviceThresholds.sessionsJudged)
    return { decision: "not-enough-data", reason: "few-sessions" };
  // What is not known of the newest sessions, older ones cannot stand for.
  if (judged.length < adviceThresholds.sessionsJudged)
    return { decision: "not-enough-data", reason: "few-answers" };

  if (judged.every((rate) => clearlyMisses(rate, inputs.goal))) return fallen(inputs);
  if (judged.every((rate) => rate >= inputs.goal)) return held(inputs);
  return { decision: "keep-going", reason: "goal-not-yet-held" };
}

function doubtOfMatch(inputs: AdviceInputs): AdviceReason | undefined {
  const { agreement, pointsPaid, sessionsSinceCheck, source } = inputs;
  if (source === "observer" || matchesThroughout(agreement)) return undefined;
  const checked =
    sessionsSinceCheck !== null && sessionsSinceCheck < adviceThresholds.checkedWithin;
  if (pointsPaid && !checked) return "points-without-checks";
  if (agreement.reading.match === "low") return "agreement-below-80";
  return recordsFlatter(agreement) ? "records-flatter" : undefined;
}

function fallen({ place }: AdviceInputs): Decided {
  return place > 0
    ? { decision: "step-back", reason: "goal-missed" }
    : { decision: "ask-what-changed", reason: "goal-missed-at-first-step" };
}

/** Whether the newest sessions are well below the goal, or well below what the earlier ones here reached. */
function falls({ goal, sessions }: AdviceInputs): boolean {
  const held = sessions.filter(isOfStudent);
  const newest = meanOf(ratesOf(held.slice(-adviceThresholds.sessionsJudged)));
  const earlier = meanOf(ratesOf(held.slice(0, -adviceThresholds.sessionsJudged)));
  if (newest === null) return false;
  return clearlyMisses(newest, goal) || (earlier !== null && clearlyMisses(newest, earlier));
}

function matchesThroughout({ percent }: AdviceInputs["agreement"]): boolean {
  return percent.kind === "computed" && percent.matching === percent.compared;
}

function held({ agreement, ladder, place, source }: AdviceInputs): Decided {
  if (place === lastPlace(ladder))
    return { decision: "keep-going", reason: "goal-held-at-last-step" };
  if (source === "self" && agreement.reading.match === "cannot-tell")
    return matchesThroughout(agreement)
      ? { decision: "keep-going", reason: "few-matching-checks-to-thin" }
      : { decision: "check-match", reason: "few-checks-to-thin" };
  const cuesRemain = place + 1 < ladder.cueSteps;
  return { decision: cuesRemain ? "thin-cues" : "end-cues-and-probe", reason: "goal-held" };
}

function destination(decision: AdviceDecision, place: number): number {
  if (decision === "step-back") return place - 1;
  return decision === "thin-cues" || decision === "end-cues-and-probe" ? place + 1 : place;
}

function isStuck(
  baseline: number | null,
  rates: readonly number[],
  judged: readonly number[],
): boolean {
  if (baseline === null || judged.length === 0) return false;
  if (rates.length < adviceThresholds.stuckAfter) return false;
  return (meanOf(judged) ?? 1) < baseline + adviceThresholds.smallestRise;
}

/** Whether the student was asked at all: who was away all the time was not. */
const isOfStudent = (counts: Counts): boolean => marked(counts) + counts.missing > 0;

const meanOf = (rates: readonly number[]): number | null =>
  rates.length === 0 ? null : rates.reduce((total, rate) => total + rate, 0) / rates.length;

const ratesOf = (sessions: readonly Counts[]): number[] =>
  sessions.filter(hasEnoughMarks).map(({ on, off }) => on / (on + off));

function hasEnoughMarks(counts: Counts): boolean {
  const marks = marked(counts);
  return marks > 0 && marks / (marks + counts.missing) >= adviceThresholds.fewestMarked;
}

/** A rate of .7 against a goal of .8 is ten points short, whatever binary fractions make of it. */
function clearlyMisses(rate: number, goal: number): boolean {
  return goal - rate >= adviceThresholds.fallBelowGoal - 1e-9;
}
