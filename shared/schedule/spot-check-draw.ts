import type { CheckStep } from "../agreement/check-fading.ts";
import { shuffled } from "./balanced.ts";
import { type RandomStream, randomStream } from "./stream.ts";

export const mostStudentsPerCheck = 4;

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
  /** Students who are present, in a settled order. */
  readonly studentIds: readonly string[];
  /** How many students to look at in one check, 1 to 4. */
  readonly studentsPerCheck: number;
  /** How often each student was checked earlier this week; nobody is listed with 0. */
  readonly earlierChecks: Readonly<Record<string, number>>;
}

/**
 * Which cues to check and whom to look at, drawn from the session's own stream "spot-checks".
 *
 * Which cues: cueCount / every of them, rounded up or down by chance so that the share is right in the
 * long run, but at least one; every choice of that many cues is equally likely. So nobody can tell from
 * earlier cues whether this one will be checked.
 *
 * Whom: each place is drawn with weights that fall to a quarter for every check a student is ahead of the
 * least-checked. Over a week counts stay close together, yet nobody is ever safe because of having been
 * checked already.
 *
 * Errors: RangeError when studentsPerCheck is not a whole number from 1 to 4.
 */
export function spotCheckDraw(settings: SpotCheckSettings): SpotCheckMoment[] {
  const { seed, cueCount, every, studentIds, studentsPerCheck } = settings;
  if (
    !Number.isInteger(studentsPerCheck) ||
    studentsPerCheck < 1 ||
    studentsPerCheck > mostStudentsPerCheck
  ) {
    throw new RangeError(`A spot check looks at 1 to ${mostStudentsPerCheck} students at once.`);
  }
  if (cueCount === 0 || studentIds.length === 0) return [];
  const stream = randomStream(seed, "spot-checks");
  const counts = new Map(studentIds.map((id) => [id, settings.earlierChecks[id] ?? 0]));
  return checkedCues(cueCount, every, stream).map((cueIndex) => ({
    cueIndex,
    studentIds: drawStudents(counts, studentsPerCheck, stream),
  }));
}

function checkedCues(cueCount: number, every: number, stream: RandomStream): number[] {
  const share = cueCount / every;
  const count = Math.max(1, Math.floor(share + stream()));
  const cues = Array.from({ length: cueCount }, (_, index) => index);
  return shuffled(cues, stream)
    .slice(0, count)
    .sort((one, other) => one - other);
}

const weightPerCheckAhead = 1 / 4;

/** Draws students without repeats and counts the check for each. */
function drawStudents(counts: Map<string, number>, wanted: number, stream: RandomStream): string[] {
  const drawn: string[] = [];
  while (drawn.length < Math.min(wanted, counts.size)) {
    const left = [...counts].filter(([id]) => !drawn.includes(id));
    const least = Math.min(...left.map(([, count]) => count));
    const weighted = left.map(([id, count]): [string, number] => [
      id,
      weightPerCheckAhead ** (count - least),
    ]);
    drawn.push(weightedChoice(weighted, stream));
  }
  for (const id of drawn) counts.set(id, (counts.get(id) ?? 0) + 1);
  return drawn;
}

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
