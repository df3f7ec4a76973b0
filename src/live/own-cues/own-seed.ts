import { freshSeed } from "../../parts/fresh-seed.ts";

const seeds = new Map<string, string>();

/**
 * The seed of a plan's next session of own cues in this window: it stays until that session has started, so
 * that keys can be printed in between.
 */
export function ownSeed(planId: string): string {
  const seed = seeds.get(planId) ?? freshSeed();
  seeds.set(planId, seed);
  return seed;
}

/** The session has started: the next one has other cues. */
export function forgetOwnSeed(planId: string): void {
  seeds.delete(planId);
}
