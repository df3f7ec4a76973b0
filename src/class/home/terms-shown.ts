import type { ContractTerms } from "../../../shared/home/contract-terms.ts";

/** A contract's terms as they are shown: no points where a group earns none, whatever was written before. */
export const termsShown = (terms: ContractTerms, points: boolean): ContractTerms =>
  points ? terms : { ...terms, points: 0, cost: 0 };
