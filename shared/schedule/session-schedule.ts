import { mostCues } from "../plan/most-cues.ts";
import type { PlanSettings } from "../plan/plan.ts";
import type { IntervalLaw } from "./interval-law.ts";
import { planLaw } from "./plan-law.ts";
import { type RandomStream, randomStream } from "./stream.ts";

/**
 * A plan that passes `checkPlan` has enough cues at least every second draw, so the chance that this
 * many draws all fail is below 1 in 10^60.
 */
const mostDraws = 200;

/** The planned cues of one session. */
export interface SessionSchedule {
  /** Seconds from the start of the session to each cue, ascending, in whole milliseconds. */
  readonly cues: readonly number[];
  /** The name of the random stream the cues were drawn from. */
  readonly streamName: string;
  /** How many whole schedules were put aside because they had too few cues, or too many to be numbered. */
  readonly redraws: number;
}

/**
 * The cues of a session under a plan, in seconds from its start.
 *
 * The law starts at the end of the lead-in as if a cue had just sounded there: the first cue comes one
 * interval later, and each next cue one more. Cues after length - end margin are dropped. So no cue
 * comes during the lead-in, the shortest gap after it, or the end margin.
 *
 * Fewest cues: a schedule with too few is put aside WHOLE and another drawn, until one has enough. The
 * joint distribution is therefore that of the law's own schedules, given that they have at least that
 * many cues; nothing is ever added or moved to fill up. Under the exponential law without a shortest gap
 * the cues are then still spread evenly over the session, so the clock alone tells a listener nothing
 * more in the last minutes than in the first. A listener who also counts, knows the floor and hears
 * that cues are still missing knows more, whatever the method; with chance P of enough cues in one draw,
 * no guess can succeed more often by over 1 - P (the distance between the two distributions). `checkPlan`
 * refuses plans with P below one half, and `guess` says how much the floor gives away.
 *
 * More than `mostCues` cues: such a schedule is put aside whole too, so that the key, the recording and the
 * session never differ. `checkPlan` refuses plans that draw one more often than once in a thousand.
 *
 * Times are rounded to the millisecond after adding up, so that the last bit of a logarithm cannot make
 * two machines differ and errors do not pile up.
 *
 * One schedule for the group, or with `studentId` that student's own from the same session seed.
 *
 * Example: sessionSchedule(firstPlan, "abc").cues.length // 9
 *
 * @throws RangeError when the law or the floor is impossible; `checkPlan` tells beforehand.
 */
export function sessionSchedule(
  plan: PlanSettings,
  seed: string,
  options: { readonly studentId?: string } = {},
): SessionSchedule {
  const streamName = options.studentId === undefined ? "cues" : `cues/${options.studentId}`;
  const stream = randomStream(seed, streamName);
  const law = planLaw(plan);
  for (let redraws = 0; redraws < mostDraws; redraws++) {
    const cues = drawCues(law, plan, stream);
    if (cues.length >= plan.fewestCues && cues.length <= mostCues)
      return { cues, streamName, redraws };
  }
  throw new RangeError(
    `fewestCues must be within reach; got ${mostDraws} schedules in a row with fewer than ${plan.fewestCues} cues or more than ${mostCues}. Ask for another number, mean or length.`,
  );
}

/** One draw of the cues, in seconds, before the fewest-cues rule. */
export function drawCues(law: IntervalLaw, plan: PlanSettings, stream: RandomStream): number[] {
  const last = Math.round((plan.lengthSeconds - plan.endMarginSeconds) * 1000);
  const nextGap = law.gaps(stream);
  const cues: number[] = [];
  let elapsed = plan.leadInSeconds;
  let previous = Math.round(plan.leadInSeconds * 1000);
  for (;;) {
    elapsed += nextGap();
    // Two cues never share a millisecond, so order is strict even without a shortest gap.
    const cue = Math.max(previous + 1, Math.round(elapsed * 1000));
    if (cue > last) return cues;
    cues.push(cue / 1000);
    previous = cue;
  }
}
