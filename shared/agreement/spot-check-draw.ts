import { mostStudentsPerCheck } from "../plan/plan.ts";
import { shuffled } from "../schedule/balanced.ts";
import { type RandomStream, randomStream } from "../schedule/stream.ts";
import type { CheckStep } from "./check-fading.ts";

/** Look at these students at this cue. */
export interface SpotCheckMoment {
  /** 0 for the first cue of the session. */
  readonly cueIndex: number;
  readonly studentIds: readonly string[];
}

export interface SpotCheckSettings {
  readonly seed: string;
  /** Number of planned cues in the session. */
  readonly cueCount: number;
  /** One in so many cues is checked. */
  readonly every: CheckStep;
  /**
   * Students who are present, cue by cue and in a settled order. Nobody, or a cue past the list's end,
   * is no moment: so the draw can grow with the session and what was drawn before stays.
   */
  readonly present: readonly (readonly string[])[];
  /** How many students to look at in one check, 1 to 4. */
  readonly studentsPerCheck: number;
  /** How often each student was checked earlier this week; who is not listed was not. */
  readonly earlierChecks: Readonly<Record<string, number>>;
  /** Students who are checked at every cue, whatever `every` is. */
  readonly closely: ReadonlySet<string>;
}

/**
 * Which cues to check and whom to look at, drawn from the session's own stream "spot-checks".
 *
 * Which cues: cueCount / every of them, rounded up or down by chance so that the share is right in the
 * long run, but at least one; every choice of that many cues is equally likely. Where the checks lie tells
 * nothing, but they are dealt without replacement: who counts the checks and knows how many cues a session
 * has knows more with every cue, and towards the end may be sure (one check in ten cues, and it has been;
 * or nine cues without, and it comes now). That is the price of never having a session without a check, and
 * a reason to keep the number of cues from the class: without it, earlier cues tell little.
 *
 * Whom: each place is drawn with weights that fall to a quarter for every check a student is ahead of the
 * least-checked. Over a week counts stay close together, yet nobody is ever safe because of having been
 * checked already.
 *
 * Students to be checked closely come first, at every cue; at the cues drawn for all, the last place can
 * go to anybody. Common practice, no source.
 *
 * @throws RangeError when studentsPerCheck is not a whole number from 1 to 4.
 */
export function spotCheckDraw(settings: SpotCheckSettings): SpotCheckMoment[] {
  const { seed, cueCount, every, present, studentsPerCheck, closely } = settings;
  if (
    !Number.isInteger(studentsPerCheck) ||
    studentsPerCheck < 1 ||
    studentsPerCheck > mostStudentsPerCheck
  ) {
    throw new RangeError(
      `studentsPerCheck must be a whole number from 1 to ${mostStudentsPerCheck}; got ${studentsPerCheck}.`,
    );
  }
  if (cueCount === 0) return [];
  const stream = randomStream(seed, "spot-checks");
  const counts = new Map(Object.entries(settings.earlierChecks));
  const forAll = new Set(checkedCues(cueCount, every, stream));
  return present.slice(0, cueCount).flatMap((here, cueIndex) => {
    const near = here.filter((id) => closely.has(id));
    const isForAll = forAll.has(cueIndex);
    const first = drawStudents(near, isForAll ? studentsPerCheck - 1 : studentsPerCheck);
    const others = isForAll ? here.filter((id) => !first.includes(id)) : [];
    const drawn = [...first, ...drawStudents(others, studentsPerCheck - first.length)];
    for (const id of drawn) counts.set(id, (counts.get(id) ?? 0) + 1);
    return drawn.length === 0 ? [] : { cueIndex, studentIds: drawn };
  });

  /** Draws this many without repeats, or all when there are fewer. */
  function drawStudents(from: readonly string[], wanted: number): string[] {
    const drawn: string[] = [];
    while (drawn.length < Math.min(wanted, from.length)) {
      const left = from
        .filter((id) => !drawn.includes(id))
        .map((id): [string, number] => [id, counts.get(id) ?? 0]);
      const least = Math.min(...left.map(([, count]) => count));
      const weighted = left.map(([id, count]): [string, number] => [
        id,
        weightPerCheckAhead ** (count - least),
      ]);
      drawn.push(weightedChoice(weighted, stream));
    }
    return drawn;
  }
}

function checkedCues(cueCount: number, every: number, stream: RandomStream): number[] {
  const share = cueCount / every;
  const count = Math.max(1, Math.floor(share + stream()));
  const cues = Array.from({ length: cueCount }, (_, index) => index);
  return shuffled(cues, stream).slice(0, count);
}

const weightPerCheckAhead = 1 / 4;

function weightedChoice(weighted: readonly [string, number][], stream: RandomStream): string {
  let left = stream() * weighted.reduce((sum, [, weight]) => sum + weight, 0);
  let chosen = "";
  for (const [id, weight] of weighted) {
    chosen = id;
    left -= weight;
    if (left < 0) break;
  }
  return chosen;
}
