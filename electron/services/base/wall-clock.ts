import { localDay } from "../../../shared/calendar/local-day.ts";
import type { DesktopClock } from "./clock.ts";

/** What tells dates: the desktop side's clock without its lengths. */
export type WallClock = Pick<DesktopClock, "wallMs" | "offsetMinutes">;

/** A moment as it is written down: ms since 1970 UTC, and minutes that local time was ahead of UTC. */
export interface WallMoment {
  readonly wallMs: number;
  readonly offsetMinutes: number;
}

export const momentOf = (clock: WallClock): WallMoment => ({
  wallMs: clock.wallMs(),
  offsetMinutes: clock.offsetMinutes(),
});

/** Today's school-local day, such as 2026-03-02. */
export const todayOf = (clock: WallClock): string =>
  localDay(clock.wallMs(), clock.offsetMinutes());
