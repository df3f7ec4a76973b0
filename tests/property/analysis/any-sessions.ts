import fc from "fast-check";
import { dayText } from "../../../shared/calendar/calendar.ts";
import type { SessionCount } from "../../../shared/record/session-count.ts";

/** Sessions as schools have them: few marks, ties, empty sessions, several a day, gaps of weeks. */
export const anySessions = (maxLength = 60): fc.Arbitrary<SessionCount[]> =>
  fc
    .array(
      fc.record({
        gap: fc.constantFrom(0, 0, 1, 1, 2, 3, 21),
        on: fc.integer({ min: 0, max: 12 }),
        off: fc.integer({ min: 0, max: 12 }),
        missing: fc.integer({ min: 0, max: 4 }),
        minuteOfDay: fc.constantFrom(510, 570, 640, 800),
        subject: fc.constantFrom("reading", "maths"),
        observed: fc.integer({ min: 0, max: 9 }),
      }),
      { maxLength },
    )
    .map((list) => {
      let day = 20_000;
      return list.map(({ gap, observed, ...rest }, at) => {
        day += gap;
        return {
          ...rest,
          sessionId: `s${at}`,
          startedAt: day * 86_400_000 + rest.minuteOfDay * 60_000 + at,
          day: dayText(day),
          source: observed === 0 ? ("observer" as const) : ("self" as const),
        };
      });
    });

/** Every number inside a result, however deep. */
export function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  if (typeof value !== "object" || value === null) return [];
  return Object.values(value).flatMap(numbersIn);
}

/** Freeze an object and everything in it, so that changing it throws. */
export function deepFreeze<T>(value: T): T {
  if (typeof value === "object" && value !== null) {
    Object.values(value).forEach(deepFreeze);
    Object.freeze(value);
  }
  return value;
}
