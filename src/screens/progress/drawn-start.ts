import { dayNumber, dayText, weekdayOf } from "../../../shared/analysis/calendar.ts";
import type { StartDraw } from "../../../shared/analysis/phases/phase-summary.ts";
import type { Draw, Phase } from "../../../shared/api/analysis.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";

/** The days that can be drawn; day numbers, Monday to Friday. Empty when `to` is before `from`. */
export function permittedDays({ from, to }: Pick<Draw, "from" | "to">): number[] {
  const days: number[] = [];
  for (let day = dayNumber(from); day <= dayNumber(to); day += 1) {
    if (weekdayOf(day) <= 5) days.push(day);
  }
  return days;
}

/** One of the permitted days, each equally likely, `YYYY-MM-DD`; null when there is none. */
export function drawDay(draw: Draw): string | null {
  const days = permittedDays(draw);
  const day = days[Math.floor(randomStream(draw.seed, "start-day")() * days.length)];
  return day === undefined ? null : dayText(day);
}

/**
 * The draw of the first program phase after a baseline, for the randomization test. Null when its first
 * day was not drawn, or is not the day that the draw gives: whoever moved it chose it.
 */
export function drawOf(
  phases: readonly Pick<Phase, "kind" | "startsOn" | "draw">[],
): StartDraw | null {
  const baseline = phases.findIndex(({ kind }) => kind === "baseline");
  const program = baseline < 0 ? undefined : phases[baseline + 1];
  if (program === undefined) return null;
  const { draw } = program;
  if (draw === null || drawDay(draw) !== program.startsOn) return null;
  return { permittedDays: permittedDays(draw), day: dayNumber(program.startsOn) };
}
