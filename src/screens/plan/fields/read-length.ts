export type LengthUnit = "seconds" | "minutes" | "hours";

const inSeconds: Record<LengthUnit, number> = { seconds: 1, minutes: 60, hours: 3600 };

// The units that people write behind a number, in the languages of the app.
const written: Record<LengthUnit, RegExp> = {
  seconds: /^(s|secs?|seconds?|seg|segundos?|["″])$/,
  minutes: /^(m|mins?|minutes?|minutos?|['′])$/,
  hours: /^(h|hrs?|hours?|horas?)$/,
};

/**
 * A length of time as a teacher types it: "90", "1.5" and "1,5" in the unit that stands beside the field,
 * "90 s" or "2 min" in their own, "1:30" as minutes and seconds.
 *
 * @returns seconds; NaN when the text is no length. So is "1.500", which one country reads as a thousand
 *   and a half and another as one and a half.
 */
export function readLength(text: string, unit: LengthUnit): number {
  const plain = text.trim().toLowerCase();
  const clock = /^(\d{1,4}):([0-5]\d)$/.exec(plain);
  if (clock !== null) return 60 * Number(clock[1]) + Number(clock[2]);
  const found = /^(\d*)(?:[.,](\d+))?\s*(\D*)$/.exec(plain);
  if (found === null) return Number.NaN;
  const [, whole = "", decimals = "", mark = ""] = found;
  if (whole + decimals === "" || decimals.length === 3) return Number.NaN;
  const own = mark === "" ? unit : unitOf(mark);
  if (own === null) return Number.NaN;
  // Thousandths of a second are what schedules are made of; a finer length would be a rounding error.
  return Math.round(Number(`${whole}.${decimals}`) * inSeconds[own] * 1000) / 1000;
}

function unitOf(mark: string): LengthUnit | null {
  const word = mark.replace(/\.$/, "");
  if (written.seconds.test(word)) return "seconds";
  if (written.minutes.test(word)) return "minutes";
  return written.hours.test(word) ? "hours" : null;
}

/** A length as a field first shows it: a plain number in the unit, "1:40" when that would be no round one. */
export function writeLength(seconds: number, unit: LengthUnit): string {
  if (!Number.isFinite(seconds)) return "";
  const count = seconds / inSeconds[unit];
  if (unit === "seconds" || Number.isInteger(count * 2)) return shortNumber(count);
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

/** Whether the text carries its own unit, so that the one beside the field does not count. */
export function namesItsUnit(text: string): boolean {
  return /[^\d\s.,]/.test(text);
}

/** A whole number from 0 up; NaN when the text is none. */
export function readCount(text: string): number {
  return /^\s*\d{1,6}\s*$/.test(text) ? Number(text) : Number.NaN;
}

function shortNumber(value: number): string {
  return String(Math.round(value * 100) / 100);
}
