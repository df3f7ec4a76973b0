import { z } from "zod";

const day = z.iso.date();

/** How a phase's first day was drawn, so that anybody can draw it again. */
export const drawSchema = z
  .strictObject({
    /** Ends of the span that was fixed before the draw. */
    from: day,
    to: day,
    seed: z.string().regex(/^[a-z0-9]{1,12}$/),
    /** The days that could be drawn, as the calendar stood then; a later change of it alters no draw. */
    days: z.array(day),
    /** How often a day was drawn until this one was kept; only a first draw allows an exact test. */
    times: z.int().min(1),
  })
  // Days written YYYY-MM-DD sort as text.
  .refine(({ from, to }) => from <= to, "the last day comes before the first")
  .refine(
    ({ from, to, days }) => isAscending(days) && days.every((one) => from <= one && one <= to),
    "the days lie within the span, in order, each once",
  );
export type Draw = z.infer<typeof drawSchema>;

/** Whether each day comes after the one before it. */
export function isAscending(days: readonly string[]): boolean {
  return days.every((one, at) => at === 0 || (days[at - 1] ?? "") < one);
}
