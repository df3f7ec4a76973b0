import type { PlanSettings } from "../../shared/plan/plan.ts";
import { type PriceInputs, type Prices, pricesFor } from "../../shared/points/planner.ts";
import { type HowSure, howSure } from "../../shared/reading/how-sure/how-sure.ts";
import type { OwnPlan } from "../../shared/reading/how-sure/how-sure-plan.ts";
import { type Guess, guess } from "../../shared/schedule/guess.ts";
import {
  type ChangeTold,
  changesTold,
  type PrecisionSettings,
} from "../../shared/schedule/precision.ts";
import { randomStream } from "../../shared/schedule/stream.ts";
import {
  type DealtTeams,
  dealTeams,
  type TeamProblem,
  type TeamWishes,
} from "../../shared/teams/deal-teams.ts";

/** What takes too long to be computed while somebody waits or types. */
export type Computation =
  | {
      readonly kind: "deal";
      readonly wishes: TeamWishes;
      readonly seed: string;
      /** How often was dealt from this seed before: each deal is a draw of its own. */
      readonly deals: number;
    }
  | { readonly kind: "guess"; readonly plan: PlanSettings }
  | {
      readonly kind: "changes";
      readonly settings: PrecisionSettings;
      readonly mostSessions: number;
    }
  | { readonly kind: "prices"; readonly inputs: PriceInputs }
  /** How often what is said is wrong, for such a plan. */
  | { readonly kind: "sure"; readonly plan: OwnPlan };

export type ComputedAside =
  | { readonly kind: "deal"; readonly dealt: DealtTeams | TeamProblem }
  | { readonly kind: "guess"; readonly guess: Guess }
  | { readonly kind: "changes"; readonly changes: readonly ChangeTold[] }
  | { readonly kind: "prices"; readonly prices: Prices }
  | { readonly kind: "sure"; readonly sure: HowSure };

/** Enough for whole percents, and done in about a second. */
const sureReplicates = 500;

export interface ToWorker {
  readonly ask: number;
  readonly computation: Computation;
}

export interface FromWorker {
  readonly ask: number;
  readonly computed: ComputedAside;
}

/**
 * @throws RangeError for a plan that `checkPlan` refuses, or wishes that `dealTeams` does.
 */
export function compute(computation: Computation): ComputedAside {
  switch (computation.kind) {
    case "deal": {
      const { wishes, seed, deals } = computation;
      return { kind: "deal", dealt: dealTeams(wishes, randomStream(seed, `teams/${deals}`)) };
    }
    case "guess":
      return { kind: "guess", guess: guess(computation.plan) };
    case "changes":
      return {
        kind: "changes",
        changes: changesTold(computation.settings, computation.mostSessions),
      };
    case "prices":
      return { kind: "prices", prices: pricesFor(computation.inputs) };
    case "sure":
      return { kind: "sure", sure: howSure(computation.plan, sureReplicates) };
  }
}
