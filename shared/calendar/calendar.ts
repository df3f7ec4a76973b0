/**
 * Arithmetic on school-local days written `YYYY-MM-DD`, without a clock or a time zone: a day is a
 * whole number of days since 1970-01-01 in the proleptic Gregorian calendar.
 *
 * Source of both conversions: Hinnant H, "chrono-Compatible Low-Level Date Algorithms"
 * (days_from_civil, civil_from_days). Weeks are those of ISO 8601: Monday to Sunday, and week 1 is
 * the week with the year's first Thursday.
 */

const daysInEra = 146_097;

/**
 * Days since 1970-01-01. Throws RangeError when the text is not a day that exists.
 *
 * Example: dayNumber("1970-01-11") // 10
 */
export function dayNumber(day: string): number {
  const year = digits(day, 0, 4);
  const month = digits(day, 5, 7);
  const date = digits(day, 8, 10);
  const dashes = day.length === 10 && day[4] === "-" && day[7] === "-";
  if (!dashes || Number.isNaN(year + month + date)) {
    throw new RangeError(`day must be written YYYY-MM-DD; got "${day}".`);
  }
  if (date < 1 || date > monthLength(year, month)) {
    throw new RangeError(`day must be one in the calendar; got "${day}".`);
  }
  return daysFromCivil(year, month, date);
}

/** The whole number at these places; NaN when one is no digit. A view of years reads many days. */
function digits(text: string, from: number, to: number): number {
  let value = 0;
  for (let at = from; at < to; at += 1) {
    const digit = text.charCodeAt(at) - 48;
    if (!(digit >= 0 && digit <= 9)) return Number.NaN;
    value = value * 10 + digit;
  }
  return value;
}

const monthLengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Days of a month; 0 when there is no such month. */
function monthLength(year: number, month: number): number {
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  return month === 2 && leap ? 29 : (monthLengths[month - 1] ?? 0);
}

function daysFromCivil(year: number, month: number, day: number): number {
  // The year is counted from March, so that the leap day comes last.
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  const dayOfEra =
    yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * daysInEra + dayOfEra - 719_468;
}

/**
 * The day `number` days after 1970-01-01, as `YYYY-MM-DD`.
 *
 * Example: dayText(10) // "1970-01-11"
 */
export function dayText(number: number): string {
  const { year, month, day } = civilFromDays(number);
  return `${fourDigits(year)}-${twoDigits(month)}-${twoDigits(day)}`;
}

function civilFromDays(number: number): { year: number; month: number; day: number } {
  const shifted = number + 719_468;
  const era = Math.floor(shifted / daysInEra);
  const dayOfEra = shifted - era * daysInEra;
  const yearOfEra = Math.floor(
    (dayOfEra -
      Math.floor(dayOfEra / 1460) +
      Math.floor(dayOfEra / 36_524) -
      Math.floor(dayOfEra / 146_096)) /
      365,
  );
  const dayOfYear =
    dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const monthFromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1,
  };
}

const fourDigits = (value: number): string => String(value).padStart(4, "0");

const twoDigits = (value: number): string => (value < 10 ? `0${value}` : `${value}`);

/**
 * 1 for Monday to 7 for Sunday, as in ISO 8601. 1970-01-01 was a Thursday.
 *
 * Example: weekdayOf(0) // 4
 */
export const weekdayOf = (number: number): number => ((((number + 3) % 7) + 7) % 7) + 1;

/**
 * The Monday of the week that a day is in. Days are day numbers.
 *
 * Example: mondayOf(10) // 4
 */
export const mondayOf = (number: number): number => number - weekdayOf(number) + 1;

/**
 * ISO 8601 week of a day number: the year that owns the week, and its number from 1 to 53.
 *
 * Example: isoWeekOf(dayNumber("2026-11-28")) // { year: 2026, week: 48 }
 */
export function isoWeekOf(number: number): { year: number; week: number } {
  const thursday = mondayOf(number) + 3;
  const { year } = civilFromDays(thursday);
  return { year, week: Math.floor((thursday - daysFromCivil(year, 1, 1)) / 7) + 1 };
}
