import { freshSeed } from "../../parts/fresh-seed.ts";

/** What is fixed of a session of own cues before it starts. */
interface Coming {
  readonly seed: string;
  /** Whose desk an adult touches. */
  readonly byTouchIds: readonly string[];
}

const coming = new Map<string, Coming>();

/**
 * The next session of a plan of own cues in this window: it stays until that session has started, so that
 * keys can be printed in between.
 */
export function comingOwn(planId: string): Coming {
  const known = coming.get(planId) ?? { seed: freshSeed(), byTouchIds: [] };
  coming.set(planId, known);
  return known;
}

export function keepTouched(planId: string, byTouchIds: readonly string[]): void {
  coming.set(planId, { ...comingOwn(planId), byTouchIds });
}

/** The session has started: the next one has other cues. */
export function forgetOwn(planId: string): void {
  coming.delete(planId);
}
