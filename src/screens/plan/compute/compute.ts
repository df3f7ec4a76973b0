import type { PlanSettings } from "../../../../shared/plan/plan.ts";
import { type Guess, guess } from "../../../../shared/schedule/guess.ts";
import {
  type ChangeTold,
  changesTold,
  type PrecisionSettings,
} from "../../../../shared/schedule/precision.ts";

/** What takes too long to be computed while somebody types. */
export type Computation =
  | { readonly kind: "guess"; readonly plan: PlanSettings }
  | {
      readonly kind: "changes";
      readonly settings: PrecisionSettings;
      readonly mostSessions: number;
    };

export type ComputedAside =
  | { readonly kind: "guess"; readonly guess: Guess }
  | { readonly kind: "changes"; readonly changes: readonly ChangeTold[] };

export interface ToWorker {
  readonly ask: number;
  readonly computation: Computation;
}

export interface FromWorker {
  readonly ask: number;
  readonly computed: ComputedAside;
}

/** Errors: RangeError for a plan that `checkPlan` refuses. */
export function compute(computation: Computation): ComputedAside {
  switch (computation.kind) {
    case "guess":
      return { kind: "guess", guess: guess(computation.plan) };
    case "changes":
      return {
        kind: "changes",
        changes: changesTold(computation.settings, computation.mostSessions),
      };
  }
}
