import type { PlanSettings } from "../../../../shared/plan/plan.ts";
import { type Guess, guess } from "../../../../shared/schedule/guess.ts";
import {
  type ChangeTold,
  changesTold,
  type PrecisionSettings,
} from "../../../../shared/schedule/precision.ts";

/** What takes too long to be reckoned while somebody types. */
export type Reckoning =
  | { readonly kind: "guess"; readonly plan: PlanSettings }
  | {
      readonly kind: "changes";
      readonly settings: PrecisionSettings;
      readonly mostSessions: number;
    };

export type Reckoned =
  | { readonly kind: "guess"; readonly guess: Guess }
  | { readonly kind: "changes"; readonly changes: readonly ChangeTold[] };

export interface ToReckoner {
  readonly ask: number;
  readonly reckoning: Reckoning;
}

export interface FromReckoner {
  readonly ask: number;
  readonly reckoned: Reckoned;
}

/** Errors: RangeError for a plan that `checkPlan` refuses. */
export function reckon(reckoning: Reckoning): Reckoned {
  switch (reckoning.kind) {
    case "guess":
      return { kind: "guess", guess: guess(reckoning.plan) };
    case "changes":
      return {
        kind: "changes",
        changes: changesTold(reckoning.settings, reckoning.mostSessions),
      };
  }
}
