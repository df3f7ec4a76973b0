import { CommandError } from "./command.ts";

// Past an hour, minutes are clock minutes; without hours there may be any number of them.
const clockPattern = /^(?:(\d+):(?=[0-5]\d:))?(\d+):([0-5]\d(?:\.\d+)?)$/;
const unitPattern = /^(?:(\d+(?:\.\d+)?)h)?(?:(\d+(?:\.\d+)?)m(?:in)?)?(?:(\d+(?:\.\d+)?)s?)?$/;

/**
 * Seconds from what people write for a length of time: `90`, `90s`, `2m`, `1m30s`, `1h`, `1:30`,
 * `1:05:00`. Seconds of a clock, and minutes behind hours, are two digits below 60.
 *
 * @throws CommandError that names the option.
 */
export function parseDuration(option: string, text: string): number {
  if (/^-[\d.]/.test(text)) {
    throw new CommandError(
      `--${option}: "${text}" is below zero; write a length of time such as 90s, 2m or 1:30.`,
    );
  }
  const match = clockPattern.exec(text) ?? unitPattern.exec(text);
  if (text === "" || match === null) {
    throw new CommandError(
      `--${option}: "${text}" is not a length of time; write 90s, 2m or 1:30.`,
    );
  }
  const [hours, minutes, seconds] = [match[1], match[2], match[3]].map((part) => Number(part ?? 0));
  return (hours ?? 0) * 3600 + (minutes ?? 0) * 60 + (seconds ?? 0);
}

/** A length of time as `parseDuration` reads it: `20s`, `2m`, `1m30s`, `1h5m`. */
export function formatDuration(seconds: number): string {
  const whole = Math.floor(seconds / 60);
  const hours = Math.floor(whole / 60);
  const minutes = whole % 60;
  const rest = Number((seconds - whole * 60).toFixed(3));
  const parts = [hours && `${hours}h`, minutes && `${minutes}m`, rest && `${rest}s`];
  return parts.filter(Boolean).join("") || "0s";
}

/** A moment of the session as a clock would show it, to a tenth of a second: `12:07.3`, `1:02:07.3`. */
export function formatClock(seconds: number): string {
  const tenths = Math.round(seconds * 10);
  const minutes = Math.floor(tenths / 600);
  const rest = ((tenths % 600) / 10).toFixed(1).padStart(4, "0");
  const hours = Math.floor(minutes / 60);
  return hours > 0
    ? `${hours}:${String(minutes % 60).padStart(2, "0")}:${rest}`
    : `${minutes}:${rest}`;
}
