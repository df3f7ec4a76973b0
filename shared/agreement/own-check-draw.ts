import type { OwnCue } from "../schedule/own-schedule.ts";
import { randomStream } from "../schedule/stream.ts";

/** Nobody can look at two students within so short a time; common practice, no source. */
export const secondsBetweenChecks = 5;

export interface OwnCheckSettings {
  readonly seed: string;
  /** Everybody's own cues, in the order in which they come. */
  readonly planned: readonly OwnCue[];
  /** One in so many cues is checked, of a class that is cued together. */
  readonly every: number;
  /** How many students are looked at in one check of such a class, 1 to 4. */
  readonly studentsPerCheck: number;
  /** How often each student was checked earlier this week; who is not listed was not. */
  readonly earlierChecks: Readonly<Record<string, number>>;
  /** Students who are checked at each of their cues, whatever `every` is. */
  readonly closely: ReadonlySet<string>;
}

/**
 * At which own cues the adult is asked for a look, and so at whom: at the one whose cue it is. As many looks
 * as in a session of a class that is cued together, one by one and never two within five seconds.
 *
 * Each cue has a number of its own from its student's stream `spot-checks/ID`, which stays whoever comes or
 * goes; which of them ask depends on who is in the session. The chance falls to a quarter for every check a
 * student is ahead of the least-checked. Where no cue was drawn the one that came nearest is, so that no
 * session goes without a look. Common practice, no source.
 *
 * @returns the checked cues, in order
 *
 * Example: ownCheckDraw({ seed: "abc", planned: [], every: 1, studentsPerCheck: 1, earlierChecks: {}, closely: new Set() }) // []
 */
export function ownCheckDraw(settings: OwnCheckSettings): OwnCue[] {
  const { seed, planned, closely } = settings;
  const chanceOf = chances(settings);
  const streams = new Map<string, () => number>();
  const tried = planned.map((cue) => {
    const { studentId } = cue;
    const stream = streams.get(studentId) ?? randomStream(seed, `spot-checks/${studentId}`);
    streams.set(studentId, stream);
    // How far the draw is from asking: below 1 it asks.
    return { cue, distance: stream() / chanceOf(studentId) };
  });
  const wanted = tried.filter(({ cue, distance }) => distance < 1 || closely.has(cue.studentId));
  const nearest = tried.toSorted((one, other) => one.distance - other.distance)[0];
  if (wanted.length === 0) return nearest === undefined ? [] : [nearest.cue];
  const kept: OwnCue[] = [];
  for (const { cue } of wanted) {
    const last = kept.at(-1)?.seconds ?? Number.NEGATIVE_INFINITY;
    if (cue.seconds - last >= secondsBetweenChecks) kept.push(cue);
  }
  return kept;
}

const weightPerCheckAhead = 1 / 4;

/** The chance of each student's cue to be checked, never above 1. */
function chances({ planned, every, studentsPerCheck, earlierChecks }: OwnCheckSettings) {
  const ids = [...new Set(planned.map(({ studentId }) => studentId))];
  const countOf = (id: string) => earlierChecks[id] ?? 0;
  const least = Math.min(...ids.map(countOf));
  const weightOf = (id: string) => weightPerCheckAhead ** (countOf(id) - least);
  const all = ids.reduce((sum, id) => sum + weightOf(id), 0);
  return (id: string) => Math.min(1, (studentsPerCheck / every) * (weightOf(id) / all));
}
