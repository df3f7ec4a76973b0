import { type SchoolSpan, schoolDays } from "../calendar/school-days.ts";
import { randomStream } from "./stream.ts";

/** How many days to draw: so many, or one in so many school days on average. */
export type ProbeRate = { readonly count: number } | { readonly everySchoolDays: number };

/**
 * Days for maintenance probes, `YYYY-MM-DD`, in order and each once, drawn from the seed's stream
 * "probe-days".
 *
 * The school days of the span are parted into as many stretches as there are probes, their lengths as
 * equal as whole days allow, and one day of each is drawn, every one equally likely. So probes are spread
 * over the span, as keeping a habit in view asks, and nobody knows the day within its stretch. Same seed
 * and school days, same days. Common practice, no source.
 *
 * A rate of one in so many school days is rounded to whole probes, at least one. There are never more
 * probes than school days; without a school day there are none.
 *
 * @throws RangeError unless the count is a whole number of at least 1, or the rate at least 1 school day
 */
export function probeDays(seed: string, span: SchoolSpan, rate: ProbeRate): string[] {
  const days = schoolDays(span);
  const probes = Math.min(days.length, wanted(rate, days.length));
  const draw = randomStream(seed, "probe-days");
  return Array.from({ length: probes }, (_, at) => {
    const first = Math.floor((at * days.length) / probes);
    const next = Math.floor(((at + 1) * days.length) / probes);
    return days[first + Math.floor(draw() * (next - first))] ?? "";
  });
}

function wanted(rate: ProbeRate, schoolDays: number): number {
  if ("count" in rate) {
    if (Number.isInteger(rate.count) && rate.count >= 1) return rate.count;
    throw new RangeError(`count must be a whole number from 1; got ${rate.count}.`);
  }
  const { everySchoolDays } = rate;
  if (everySchoolDays >= 1) return Math.max(1, Math.round(schoolDays / everySchoolDays));
  throw new RangeError(`everySchoolDays must be 1 or more; got ${everySchoolDays}.`);
}
