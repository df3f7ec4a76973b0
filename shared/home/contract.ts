import { type GivenTaken, givenForOne } from "../points/guard.ts";
import { type ContractGoal, isSelfRecorded } from "./contract-terms.ts";

/** What is known of one student's day. */
export interface ContractDay {
  /** Marks of the day's seatwork, pooled. */
  readonly on: number;
  readonly off: number;
  /** Cues of it that were delivered to the student. */
  readonly cues: number;
  /** Work of the day, summed; null when nobody noted any. */
  readonly work: {
    readonly assigned: number;
    readonly completed: number;
    readonly correct: number | null;
  } | null;
}

/** The day's outcome. No data is no data: it never costs anything. */
export type ContractOutcome = "met" | "not-yet" | "no-data";

/** Fewer marks than this on a day say too little; common practice, no source. */
const fewestMarksOfDay = 5;

/**
 * Whether a day met the agreement. A rate needs at least five marks and an answer to half of the
 * delivered cues; work needs something assigned, and a count of correct items where the goal has one.
 *
 * Example: contractOutcome({ kind: "rate", rate: 0.8, measure: "self" },
 *   { on: 8, off: 2, cues: 11, work: null }) // "met"
 *
 * @param goal `rate` from 0 to 1; `completed` and `correct` are shares too: of the assigned items those
 *   completed, of the completed ones those correct
 */
export function contractOutcome(goal: ContractGoal, day: ContractDay): ContractOutcome {
  if (goal.kind === "rate") {
    const marks = day.on + day.off;
    if (marks < fewestMarksOfDay || 2 * marks < day.cues) return "no-data";
    return reaches(day.on, marks, goal.rate);
  }
  const { work } = day;
  if (work === null || work.assigned === 0) return "no-data";
  if (reaches(work.completed, work.assigned, goal.completed) === "not-yet") return "not-yet";
  if (goal.correct === null) return "met";
  if (work.correct === null) return "no-data";
  return reaches(work.correct, work.completed, goal.correct);
}

/** Whole numbers are compared in hundredths, so that 0.7 of ten is seven. */
function reaches(part: number, whole: number, share: number): "met" | "not-yet" {
  return part * 100 >= Math.round(share * 100) * whole ? "met" : "not-yet";
}

/** How often days would have met a goal, or did. */
export interface ContractTally {
  readonly met: number;
  readonly notYet: number;
  readonly noData: number;
}

/**
 * The outcomes of some days, counted: for "the last ten days would have met this on 4 of 9".
 *
 * Example: contractTally(["met", "no-data", "not-yet"]) // { met: 1, notYet: 1, noData: 1 }
 */
export function contractTally(outcomes: readonly ContractOutcome[]): ContractTally {
  const count = (outcome: ContractOutcome) => outcomes.filter((each) => each === outcome).length;
  return { met: count("met"), notYet: count("not-yet"), noData: count("no-data") };
}

/** A review adds this much to the median day; common practice, no source. */
const nextStep = 0.05;

/**
 * The rate that a review proposes: the median of the days with data and five percentage points, in whole
 * percent, never above the hold goal; null without any day.
 *
 * Example: proposedRate([0.6, 0.7, 0.64], 0.8) // 0.69
 *
 * @param rates on-task rates of the last ten days with data, 0 to 1
 */
export function proposedRate(rates: readonly number[], holdGoal: number): number | null {
  if (rates.length === 0) return null;
  const sorted = [...rates].sort((one, other) => one - other);
  const [low = 0, high = low] = [
    sorted[Math.floor((sorted.length - 1) / 2)],
    sorted[Math.ceil((sorted.length - 1) / 2)],
  ];
  return Math.min(Math.round(100 * ((low + high) / 2 + nextStep)) / 100, holdGoal);
}

/** A review comes within so many days; common practice, no source. */
export const longestToReview = 21;

/** What decides how much a day that did not meet a contract may cost. */
export interface CostInputs {
  readonly outcome: ContractOutcome;
  /** What was agreed, in points. */
  readonly cost: number;
  /** Taking was stopped on that day. */
  readonly stopped: boolean;
  /** Points the student has now. */
  readonly balance: number;
  /** Given and taken on that day. */
  readonly day: GivenTaken;
  /** The same over the last ten sessions in which the student took part. */
  readonly lately: GivenTaken;
}

/**
 * What a contract may take for a day that did not meet it: the agreed cost, as far as the guard of points
 * goes. At most half of what the day gave, never against two given for one taken, over the day and over the
 * last ten sessions alike, and never below zero. Nothing where self-records are the measure, where the day
 * has no data, or after a stop.
 *
 * Example: contractCost({ kind: "work", completed: 0.9, correct: null }, { outcome: "not-yet", cost: 3,
 *   stopped: false, balance: 10, day: { given: 4, taken: 0 }, lately: { given: 9, taken: 1 } }) // 2
 */
export function contractCost(goal: ContractGoal, inputs: CostInputs): number {
  const { outcome, cost, stopped, balance, day, lately } = inputs;
  if (isSelfRecorded(goal) || stopped || outcome !== "not-yet") return 0;
  const halfOfDay = Math.floor(day.given / 2);
  return Math.max(0, Math.min(cost, halfOfDay, balance, roomLeft(day), roomLeft(lately)));
}

/** So many points can still be taken before less than two are given for each one. */
const roomLeft = ({ given, taken }: GivenTaken): number => Math.floor(given / givenForOne) - taken;
