import { z } from "zod";
import { idSchema } from "../roster/roster.ts";
import { homeCardScaleSchema, type Rating, ratings } from "./home-card.ts";

/** More of either would not fit a card that is filled in between two lessons; common practice, no source. */
export const mostGoals = 4;
export const mostPeriods = 8;

const words = z.string().trim().min(1).max(60);

/** What a version of a card asks. */
export const homeCardSchema = z.strictObject({
  /** In words a child can repeat; each is rated once in each period. */
  goals: z
    .array(words)
    .min(1)
    .max(mostGoals)
    .refine((goals) => new Set(goals).size === goals.length, "no goal stands twice"),
  periods: z.array(words).min(1).max(mostPeriods),
  scale: homeCardScaleSchema,
  /** Whether there is a line for homework. */
  homework: z.boolean(),
  /** Whether the family also sees how often the student recorded "working". */
  selfRecord: z.boolean(),
});
export type HomeCard = z.infer<typeof homeCardSchema>;

/** A card as it is from a day on, until the next version. */
export const homeCardVersionSchema = z.strictObject({
  id: idSchema,
  studentId: idSchema,
  fromDay: z.iso.date(),
  card: homeCardSchema,
});
export type HomeCardVersion = z.infer<typeof homeCardVersionSchema>;

const rating = z.union(ratings.map((value) => z.literal(value)));
const line = z.string().trim().max(300);

/** A card that came back, as it was typed in. */
export const homeCardDaySchema = z.strictObject({
  /** The version that was printed. */
  cardId: idSchema,
  day: z.iso.date(),
  /** Goal by goal within each period, as on paper; null for a cell that nobody rated. */
  ratings: z.array(rating.nullable()).max(mostGoals * mostPeriods),
  homework: line,
  wentWell: line,
  tomorrow: line,
});
export type HomeCardDay = z.infer<typeof homeCardDaySchema>;

/**
 * The version that holds on a day: the newest that began by then; null before the first.
 *
 * Example: versionOn([], "2026-03-02") // null
 *
 * @param versions in the order in which they were made
 */
export function versionOn<Version extends Pick<HomeCardVersion, "fromDay">>(
  versions: readonly Version[],
  day: string,
): Version | null {
  let found: Version | null = null;
  for (const version of versions) {
    if (version.fromDay <= day && (found === null || found.fromDay <= version.fromDay)) {
      found = version;
    }
  }
  return found;
}

/**
 * How many cells a card has: each goal once in each period.
 *
 * Example: cellCount({ goals: ["Start at once"], periods: ["Reading", "Sums"] }) // 2
 */
export const cellCount = ({ goals, periods }: Pick<HomeCard, "goals" | "periods">): number =>
  goals.length * periods.length;

/**
 * The ratings of one goal through the periods.
 *
 * Example: ratingsOfGoal([4, 0, 3, null], { goals: ["a", "b"], periods: ["1", "2"] }, 0) // [4, 3]
 *
 * @param goal its place among the goals, from 0
 */
export const ratingsOfGoal = (
  cells: readonly (Rating | null)[],
  { goals, periods }: Pick<HomeCard, "goals" | "periods">,
  goal: number,
): (Rating | null)[] => periods.map((_, period) => cells[period * goals.length + goal] ?? null);

/**
 * Whether nothing at all was typed in of a day: then there is no card of that day, and nothing is lost.
 *
 * Example: isEmptyDay({ ratings: [null], homework: "", wentWell: "", tomorrow: "" }) // true
 */
export const isEmptyDay = (
  day: Pick<HomeCardDay, "ratings" | "homework" | "wentWell" | "tomorrow">,
): boolean =>
  day.ratings.every((each) => each === null) &&
  day.homework === "" &&
  day.wentWell === "" &&
  day.tomorrow === "";
