/** What a listener can be in while waiting, e.g. "about a minute since the last cue". */
export interface WaitingState {
  /** Share or number of cues that come in this state. */
  readonly cues: number;
  /** Time spent in this state, in any one unit. */
  readonly time: number;
}

/**
 * The greatest share of cues, 0 to 1, that a listener can be on the alert for while being on the alert
 * only `alertShare` of the time, choosing by state alone.
 *
 * The states with most cues per unit of time are taken first, the last one in part: no other choice
 * catches more (Neyman & Pearson's argument). When waiting tells nothing, all states are alike and the
 * answer is `alertShare` itself.
 */
export function bestCatch(states: readonly WaitingState[], alertShare: number): number {
  const lived = states.filter((state) => state.time > 0);
  const allCues = lived.reduce((sum, state) => sum + state.cues, 0);
  if (allCues === 0) return 0;
  let timeLeft = alertShare * lived.reduce((sum, state) => sum + state.time, 0);
  let caught = 0;
  const bestFirst = lived.sort((one, other) => other.cues / other.time - one.cues / one.time);
  for (const { cues, time } of bestFirst) {
    const taken = Math.min(1, timeLeft / time);
    caught += taken * cues;
    timeLeft -= taken * time;
    if (timeLeft <= 0) break;
  }
  return caught / allCues;
}
