import type { EarningRules } from "../plan/earning.ts";
import { type KeptCount, type KeptCountSettings, keptCounts } from "../schedule/kept-counts.ts";
import { type Bands, bandsOf, type StudentIncome } from "./bands.ts";
import { poisson, repeated, sumOf } from "./distribution.ts";
import { dayIncome, type Income, incomeOf, type Recorder, sessionIncome } from "./income.ts";

/** How a student records, and what is this student's own. */
export interface PricedStudent extends Recorder {
  /** Points that the adult gives this student on a day; the group's mean where it is left out. */
  readonly givenADay?: number;
  /** Own goal, as an on-task share; the rule's where it is left out. */
  readonly ownGoal?: number;
}

/** What a week's prices rest on. */
export interface PriceInputs {
  readonly plan: KeptCountSettings;
  readonly rules: EarningRules;
  readonly students: readonly PricedStudent[];
  /** Sessions of a school day, at least 1, and exchanges of a day, at least 1. */
  readonly sessions: number;
  readonly exchanges: number;
  /** Points given by the adult to one student on a day, on average. */
  readonly givenADay: number;
}

/** What would let every student afford something at nearly every exchange, best first. */
export type RuleChange =
  | { readonly kind: "pay-for-recording" }
  | { readonly kind: "give-more"; readonly pointsADay: number }
  | { readonly kind: "denser-cues"; readonly meanSeconds: number }
  | { readonly kind: "cheaper" };

export interface Prices {
  readonly students: readonly {
    readonly session: Income;
    readonly day: Income;
  }[];
  readonly bands: Bands;
  /** Null while the promise is kept. */
  readonly change: RuleChange | null;
}

/** An adult who teaches can give this many points to each student on a day. Common practice, no source. */
const mostGivenADay = 5;

/**
 * Prices for the privileges of a group, and what to change where no price keeps the promise that everybody
 * can afford something at nine exchanges in ten.
 *
 * Example: pricesFor(inputs).bands.low // 17
 *
 * @throws RangeError when the plan cannot be run, without a student, or for less than one session or exchange.
 */
export function pricesFor(inputs: PriceInputs): Prices {
  const { sessions, exchanges } = inputs;
  for (const [name, value] of Object.entries({ sessions, exchanges })) {
    if (Number.isInteger(value) && value >= 1) continue;
    throw new RangeError(`${name} must be a whole number from 1 up; got ${value}.`);
  }
  const incomes = incomesFor(inputs);
  const bands = bandsOf(incomes, exchanges);
  const change = bands.promiseKept ? null : changeFor(inputs);
  return { students: incomes, bands, change };
}

type FullIncome = StudentIncome & { readonly session: Income };

function incomesFor(inputs: PriceInputs): FullIncome[] {
  const { plan, rules, students, sessions, exchanges } = inputs;
  const counts: readonly KeptCount[] = keptCounts(plan);
  const minutes = Math.floor(plan.lengthSeconds / 60);
  const sessionsBetween = Math.max(1, Math.floor(sessions / exchanges));
  return students.map((student) => {
    const { ownGoal = rules.goalShare, givenADay = inputs.givenADay } = student;
    const session = sessionIncome(counts, { ...rules, goalShare: ownGoal }, student, minutes);
    const day = dayIncome(session, sessions, givenADay);
    const given = poisson((givenADay * sessionsBetween) / sessions);
    return {
      session,
      day,
      between: incomeOf(sumOf(repeated(session.chances, sessionsBetween), given)),
      twoDays: incomeOf(sumOf(day.chances, day.chances)),
    };
  });
}

/** In this order: pay for recording, give more, denser cues; cheaper prices last. */
function changeFor(inputs: PriceInputs): RuleChange {
  const keeps = (changed: Partial<PriceInputs>) =>
    bandsOf(incomesFor({ ...inputs, ...changed }), inputs.exchanges).promiseKept;
  const { rules, plan } = inputs;
  const given = inputs.students.map((student) => student.givenADay ?? inputs.givenADay);
  if (rules.mark === 0 && keeps({ rules: { ...rules, mark: 1 } })) {
    return { kind: "pay-for-recording" };
  }
  for (
    let pointsADay = Math.ceil(Math.min(...given)) + 1;
    pointsADay <= mostGivenADay;
    pointsADay++
  ) {
    const students = inputs.students.map((student, at) => ({
      ...student,
      givenADay: Math.max(pointsADay, given[at] ?? 0),
    }));
    if (keeps({ students })) return { kind: "give-more", pointsADay };
  }
  for (const share of [3 / 4, 1 / 2]) {
    const meanSeconds = Math.round(plan.meanSeconds * share);
    if (meanSeconds <= plan.shortestGapSeconds) break;
    if (plan.longestGapSeconds !== null || plan.law === "balanced") break;
    if (keeps({ plan: { ...plan, meanSeconds } })) return { kind: "denser-cues", meanSeconds };
  }
  return { kind: "cheaper" };
}
