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
 *
 * Example: bestCatch([{ cues: 1, time: 1 }], 0.25) // 0.25
 */
export function bestCatch(states: readonly WaitingState[], alertShare: number): number {
  return learnedCatch(states, states, alertShare);
}

/**
 * The share of cues caught by a listener who has learned from some sessions which states have most cues, and
 * listens to others: `learned[i]` and `judged[i]` are the same state. Judged by what it had learned from, the
 * same listener would seem to catch more than it can. Where it never was, it does not expect a cue.
 *
 * Example: learnedCatch([{ cues: 3, time: 1 }, { cues: 1, time: 3 }], [{ cues: 2, time: 1 }, { cues: 2, time: 3 }], 0.25) // 0.5
 */
export function learnedCatch(
  learned: readonly WaitingState[],
  judged: readonly WaitingState[],
  alertShare: number,
): number {
  const rateIn = ({ cues, time }: WaitingState) => (time > 0 ? cues / time : -1);
  const states = judged.flatMap((state, at) => {
    const known = learned[at];
    return state.time > 0 ? [{ ...state, rate: known === undefined ? -1 : rateIn(known) }] : [];
  });
  const allCues = states.reduce((sum, state) => sum + state.cues, 0);
  if (allCues === 0) return 0;
  let timeLeft = alertShare * states.reduce((sum, state) => sum + state.time, 0);
  let caught = 0;
  for (const { cues, time } of states.sort((one, other) => other.rate - one.rate)) {
    const taken = Math.min(1, timeLeft / time);
    caught += taken * cues;
    timeLeft -= taken * time;
    if (timeLeft <= 0) break;
  }
  return caught / allCues;
}
