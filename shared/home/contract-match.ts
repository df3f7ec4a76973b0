import { percentAgreement } from "../agreement/percent-agreement.ts";
import { agreementThresholds } from "../agreement/thresholds.ts";
import { twoByTwo } from "../agreement/two-by-two.ts";
import { type ContractCounts, sessionsTried } from "./contract-days.ts";
import { type ContractGoal, isSelfRecorded } from "./contract-terms.ts";

/** How a student's self-records match what an adult saw. */
export interface SelfMatch {
  /** 0 to 1; null where too few cues were compared to say. */
  readonly share: number | null;
  readonly compared: number;
}

/**
 * The match of a student's self-records with the spot checks of the ten newest seatwork sessions of the
 * group; from ten compared cues on, as everywhere where a match is read.
 *
 * Example: selfMatch({ sessions: [], counts: [], checks: [], work: [] }, "0190…") // { share: null, compared: 0 }
 */
export function selfMatch({ sessions, checks }: ContractCounts, studentId: string): SelfMatch {
  const newest = new Set(
    sessions
      .filter(({ kind }) => kind === "seatwork")
      .slice(-sessionsTried)
      .map(({ id }) => id),
  );
  const pairs = checks
    .filter((each) => each.studentId === studentId && newest.has(each.sessionId))
    .map(({ student, seen }) => ({ first: student, second: seen }));
  const agreement = percentAgreement(twoByTwo(pairs));
  if (agreement.kind !== "computed") return { share: null, compared: 0 };
  const { value, compared } = agreement;
  return { share: compared < agreementThresholds.fewestCompared ? null : value, compared };
}

/**
 * Whether a goal may be measured as it is: self-records are no measure while they match below 80 percent.
 *
 * Example: mayMeasure({ kind: "rate", rate: 0.8, measure: "self" }, { share: 0.7, compared: 20 }) // false
 */
export const mayMeasure = (goal: ContractGoal, { share }: SelfMatch): boolean =>
  !isSelfRecorded(goal) || share === null || share >= agreementThresholds.acceptable;
