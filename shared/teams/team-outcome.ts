/** What a team reached on a day; never how much, so that nobody's marks can be worked out. */
export type TeamOutcome = "met" | "not-yet" | "no-data";

/** One member's marks of a day. */
export interface MemberMarks {
  readonly on: number;
  readonly off: number;
}

/** Fewer who marked make no team goal; the project's design, no source. */
export const fewestMembers = 3;
/** Fewer pooled marks say nothing; common practice, no source. */
const fewestTeamMarks = 5;

/**
 * Whether a team met its goal on a day. Marks are pooled over all who marked but the one with the lowest
 * share on task, so that nobody alone can fail it; under three who marked, or under five pooled marks,
 * there is no data. Common practice, no source.
 *
 * Example: teamOutcome([{ on: 9, off: 1 }, { on: 8, off: 2 }, { on: 1, off: 9 }], 0.8) // "met"
 *
 * @param goal share of pooled marks on task, above 0 to 1
 * @throws RangeError when the goal is not above 0 and at most 1.
 */
export function teamOutcome(members: readonly MemberMarks[], goal: number): TeamOutcome {
  if (!(goal > 0 && goal <= 1)) {
    throw new RangeError(`goal must be above 0 and at most 1; got ${goal}.`);
  }
  const marked = members
    .filter(({ on, off }) => on + off > 0)
    .sort((one, other) => share(one) - share(other) || total(other) - total(one));
  if (marked.length < fewestMembers) return "no-data";
  const pool = marked.slice(1);
  const on = pool.reduce((sum, each) => sum + each.on, 0);
  const all = pool.reduce((sum, each) => sum + total(each), 0);
  if (all < fewestTeamMarks) return "no-data";
  // In hundredths, so that 0.7 of ten is seven.
  return on * 100 >= Math.round(goal * 100) * all ? "met" : "not-yet";
}

const total = ({ on, off }: MemberMarks): number => on + off;
const share = ({ on, off }: MemberMarks): number => on / (on + off);
