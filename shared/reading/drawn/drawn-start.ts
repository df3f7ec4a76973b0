import type { StartDraw } from "../../analysis/phases/phase-summary.ts";
import { dayNumber } from "../../calendar/calendar.ts";
import type { Draw } from "../../phase/draw.ts";
import type { Phase } from "../../phase/phase.ts";
import { randomStream } from "../../schedule/stream.ts";

/** One of the days that can be drawn, each equally likely; null when there is none. */
export function drawDay({ seed, days }: Pick<Draw, "seed" | "days">): string | null {
  return days[Math.floor(randomStream(seed, "start-day")() * days.length)] ?? null;
}

type Drawable = Pick<Phase, "kind" | "startsOn" | "draw">;

/**
 * The draw of the first program phase after a baseline. Null when its first day was not drawn, or is not
 * the day that the draw gives: whoever moved it chose it.
 */
export function keptDraw(phases: readonly Drawable[]): Draw | null {
  const baseline = phases.findIndex(({ kind }) => kind === "baseline");
  const program = baseline < 0 ? undefined : phases[baseline + 1];
  if (program === undefined || program.draw === null) return null;
  return drawDay(program.draw) === program.startsOn ? program.draw : null;
}

/** The same draw as the randomization test takes it. */
export function drawOf(phases: readonly Drawable[]): StartDraw | null {
  const draw = keptDraw(phases);
  const day = draw === null ? null : drawDay(draw);
  if (draw === null || day === null) return null;
  return { permittedDays: draw.days.map(dayNumber), day: dayNumber(day) };
}
