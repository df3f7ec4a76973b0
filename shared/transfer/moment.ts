import { dayNumber, dayText } from "../calendar/calendar.ts";

/** A moment with the local time it was written in. */
export interface Moment {
  /** Milliseconds since 1970 in UTC. */
  readonly ms: number;
  /** The local day, `YYYY-MM-DD`, and minutes after its midnight. */
  readonly day: string;
  readonly minuteOfDay: number;
  /** Minutes that the local time is ahead of UTC. */
  readonly offsetMinutes: number;
}

const pattern =
  /^(\d{4}-\d{2}-\d{2})T(\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?(?:Z|([+-])(\d{2}):?(\d{2}))$/;

/**
 * Reads ISO 8601 with an offset, such as `2026-03-02T09:15:00+01:00` or `...Z`; seconds may be left out.
 * Undefined for anything else: without the offset the school's local day could not be known.
 */
export function parseMoment(text: string): Moment | undefined {
  const match = pattern.exec(text);
  if (match === null) return undefined;
  const [, day = "", ...rest] = match;
  const [hour, minute, second = 0] = rest.slice(0, 3).map((part) => Number(part ?? 0));
  const [fraction = "0", sign = "+", offsetHour = "0", offsetMinute = "0"] = rest.slice(3);
  if (hour === undefined || minute === undefined) return undefined;
  if (hour > 23 || minute > 59 || second > 59) return undefined;
  // The world's clocks stay within fourteen hours of UTC.
  const offset = Number(offsetHour) * 60 + Number(offsetMinute);
  if (offset > 14 * 60 || Number(offsetMinute) > 59) return undefined;

  const date = daysSince1970(day);
  if (date === undefined) return undefined;
  const minuteOfDay = hour * 60 + minute;
  const offsetMinutes = sign === "-" ? 0 - offset : offset;
  const utcMinutes = date * 1440 + minuteOfDay - offsetMinutes;
  const milliseconds = Math.floor(Number(`0.${fraction}`) * 1000);
  const ms = utcMinutes * 60_000 + second * 1000 + milliseconds;
  return { ms, day, minuteOfDay, offsetMinutes };
}

/**
 * Writes a moment so that `parseMoment` reads the same back: local time with its offset, to the second,
 * or to the millisecond when there is a part of a second.
 *
 * @param ms whole milliseconds since 1970 in UTC
 * @param offsetMinutes minutes that local time is ahead of UTC, whole, at most fourteen hours either way
 */
export function momentText(ms: number, offsetMinutes: number): string {
  const local = ms + offsetMinutes * 60_000;
  const day = Math.floor(local / 86_400_000);
  const inDay = local - day * 86_400_000;
  const hour = Math.floor(inDay / 3_600_000);
  const minute = Math.floor(inDay / 60_000) % 60;
  const second = Math.floor(inDay / 1000) % 60;
  const fraction = inDay % 1000 === 0 ? "" : `.${padded(inDay % 1000, 3)}`;
  const ahead = Math.abs(offsetMinutes);
  const offset = `${offsetMinutes < 0 ? "-" : "+"}${padded(Math.floor(ahead / 60))}:${padded(ahead % 60)}`;
  return `${dayText(day)}T${padded(hour)}:${padded(minute)}:${padded(second)}${fraction}${offset}`;
}

const padded = (value: number, length = 2): string => String(value).padStart(length, "0");

function daysSince1970(day: string): number | undefined {
  try {
    return dayNumber(day);
  } catch {
    return undefined;
  }
}
