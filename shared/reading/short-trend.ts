import { trendRule } from "../analysis/phases/trend.ts";

/** Days from the first session to the last, both counted. */
export const daysOf = ({ days }: { readonly days: number }): number => days + 1;

/**
 * Too few days to say by how much a rate moves in a week: carried on from a few of them it would often be
 * more than any rate can. The same rule as for the trend of a phase.
 */
export const isShort = (trend: { readonly days: number }): boolean =>
  daysOf(trend) < trendRule.fewestDays;
