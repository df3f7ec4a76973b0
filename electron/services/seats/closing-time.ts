/** When a school day ends where no periods are set; common practice, no source. */
const usualEnd = "16:00";
/** Seats that are opened after the end of the day stay open so long, in minutes; common practice, no source. */
const afterHoursMinutes = 120;

const minutesOf = (time: string): number =>
  Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5));

/**
 * When seats close by themselves, in minutes after local midnight: at the end of the last period; once that
 * has passed, two hours later than now, which may be after midnight.
 *
 * @param ends when today's periods end, HH:MM
 * @param nowMinutes minutes after local midnight
 *
 * Example: closingMinutes(["10:30", "14:45"], 540) // 885
 */
export function closingMinutes(ends: readonly string[], nowMinutes: number): number {
  const last = Math.max(...(ends.length === 0 ? [usualEnd] : ends).map(minutesOf));
  return last > nowMinutes ? last : nowMinutes + afterHoursMinutes;
}

/**
 * Example: timeOf(885) // "14:45"
 */
export const timeOf = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;

/** Minutes of local time since 1970. */
export const localMinutes = (wallMs: number, offsetMinutes: number): number =>
  Math.floor(wallMs / 60_000) + offsetMinutes;

/**
 * Minutes after midnight.
 *
 * Example: minutesOfDay(1500) // 60
 */
export const minutesOfDay = (localMinutes: number): number => {
  const day = 24 * 60;
  return ((localMinutes % day) + day) % day;
};
