import { mondayOf } from "../../calendar/calendar.ts";
import type { SessionCount } from "../../record/session-count.ts";
import { recentSessions } from "../recent.ts";
import { type RatePoint, ratePoints } from "./points.ts";
import { type TrendStatement, trendOfPoints } from "./trend-statement.ts";

/** A fall that may be pointed out. */
export interface LastingFall {
  /** Of the newest sessions alone, or of all sessions of the phase. */
  readonly over: "recent" | "phase";
  readonly trend: TrendStatement;
}

/**
 * The fall of a record within one phase that is clear now and was clear at the end of the week before the
 * newest one too; null when there is none. Somebody who looks every week sees many trends, and one clear
 * fall in some week comes by chance to one steady student in five or more. Asking twice leaves about one
 * in twenty over twelve weeks; see `npm run bench:calibration`.
 *
 * @param sessions of one source within one phase, oldest first
 *
 * Example: lastingFall([]) // null
 */
export function lastingFall(sessions: readonly SessionCount[]): LastingFall | null {
  const points = ratePoints(sessions);
  const newest = points.at(-1);
  if (newest === undefined) return null;
  const now = clearFall(points);
  if (now === null) return null;
  const monday = mondayOf(newest.day);
  return clearFall(points.filter(({ day }) => day < monday)) === null ? null : now;
}

/** A clear fall of the newest sessions, or of all of them unless it has turned since. */
function clearFall(points: readonly RatePoint[]): LastingFall | null {
  if (points.length > recentSessions) {
    const recent = trendOfPoints(points.slice(-recentSessions));
    if (recent.kind === "enough") {
      if (isClearlyDown(recent)) return { over: "recent", trend: recent };
      if (recent.direction === "up" && recent.evidence !== "cannot-tell") return null;
    }
  }
  const trend = trendOfPoints(points);
  return trend.kind === "enough" && isClearlyDown(trend) ? { over: "phase", trend } : null;
}

const isClearlyDown = ({ direction, evidence }: TrendStatement): boolean =>
  direction === "down" && evidence === "clear";
