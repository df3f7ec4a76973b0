import { dayNumber, dayText, weekdayOf } from "../../../shared/analysis/calendar.ts";
import type { StartDraw } from "../../../shared/analysis/phases/phase-summary.ts";
import type { Phase } from "../../../shared/api/analysis.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";

/** How a program's first day was drawn, so that anybody can draw it again. */
export interface Draw {
  /** First and last day that could have been drawn; school days between them, Monday to Friday. */
  readonly from: string;
  readonly to: string;
  readonly seed: string;
}

/** A draw is kept in the phase's label, after the teacher's own words, where everybody can read it. */
const written = /(?:^| · )drawn (\d{4}-\d{2}-\d{2})\/(\d{4}-\d{2}-\d{2}) ([a-z0-9]{1,12})$/;

/** Room that a label leaves for the teacher's own words when a draw is kept in it. */
export const labelBesideDraw = 17;

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

/** The label that keeps a draw. */
export const labelWithDraw = (label: string, { from, to, seed }: Draw): string =>
  `${label === "" ? "" : `${label} · `}drawn ${from}/${to} ${seed}`;

/** The teacher's own words of a label, and the draw that it keeps. */
export function readLabel(label: string): { own: string; draw: Draw | null } {
  const found = written.exec(label);
  if (found === null) return { own: label, draw: null };
  const [, from = "", to = "", seed = ""] = found;
  return { own: label.slice(0, found.index), draw: { from, to, seed } };
}

/**
 * The draw of the first program phase after a baseline, for the randomization test. Null when its first
 * day was not drawn, or is not the day that the draw gives: whoever moved it chose it.
 */
export function drawOf(
  phases: readonly Pick<Phase, "kind" | "label" | "startsOn">[],
): StartDraw | null {
  const baseline = phases.findIndex(({ kind }) => kind === "baseline");
  const program = baseline < 0 ? undefined : phases[baseline + 1];
  if (program === undefined) return null;
  const { draw } = readLabel(program.label);
  if (draw === null || drawDay(draw) !== program.startsOn) return null;
  return { permittedDays: permittedDays(draw), day: dayNumber(program.startsOn) };
}
