import { trendRule } from "../analysis/phases/trend.ts";
import type { Trend } from "../analysis/trend.ts";

/** Days from the first session to the last, both counted. */
export const daysOf = ({ days }: Pick<Trend, "days">): number => days + 1;

/**
 * Too few days to say by how much a rate moves in a week: carried on from a few of them it would often be
 * more than any rate can. The same rule as for the trend of a phase.
 */
export const isShort = (trend: Pick<Trend, "days">): boolean =>
  daysOf(trend) < trendRule.fewestDays;
