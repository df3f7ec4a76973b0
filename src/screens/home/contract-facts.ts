import { dayNumber, dayText } from "../../../shared/calendar/calendar.ts";
import type { ContractGoal, ContractTerms } from "../../../shared/home/contract-terms.ts";

/** What a goal may be about: work done, the adult's record, or the student's own. */
export const kinds = ["work", "adult", "self"] as const;
type Kind = (typeof kinds)[number];

const kindOf = (goal: ContractGoal): Kind => (goal.kind === "work" ? "work" : goal.measure);
const usualShare = 70;
const usualPoints = 3;
const usualDays = 14;

/** What is being written of a contract. */
export interface ContractFacts {
  readonly wording: ContractTerms["wording"];
  readonly kind: Kind;
  readonly share: number;
  readonly correct: number;
  readonly points: number;
  readonly earns: string;
  readonly cost: number;
  readonly checkedBy: string;
  readonly fromDay: string;
  readonly reviewOn: string;
}

/** What the form begins with: the contract before, or what is usual. */
export const firstFacts = (before: ContractTerms | null, today: string): ContractFacts => ({
  wording: before?.wording ?? "young",
  kind: before === null ? "work" : kindOf(before.goal),
  share: percentOf(before),
  correct: correctOf(before),
  points: before?.points ?? usualPoints,
  earns: before?.earns ?? "",
  cost: before?.cost ?? 0,
  checkedBy: before?.checkedBy ?? "",
  fromDay: today,
  reviewOn: dayText(dayNumber(today) + usualDays),
});

function percentOf(before: ContractTerms | null): number {
  if (before === null) return usualShare;
  const { goal } = before;
  return Math.round(100 * (goal.kind === "work" ? goal.completed : goal.rate));
}

function correctOf(before: ContractTerms | null): number {
  const share = before?.goal.kind === "work" ? before.goal.correct : null;
  return Math.round(100 * (share ?? 0));
}

/** The goal as it stands in the form. */
export function goalOf({ kind, share, correct }: ContractFacts): ContractGoal {
  if (kind !== "work") return { kind: "rate", rate: share / 100, measure: kind };
  return { kind: "work", completed: share / 100, correct: correct === 0 ? null : correct / 100 };
}
