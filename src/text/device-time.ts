import { localDay } from "../../shared/calendar/local-day.ts";

/** Minutes that this computer's place is ahead of UTC at a moment, milliseconds since 1970 UTC. */
export const deviceOffset = (wallMs: number): number => -new Date(wallMs).getTimezoneOffset();

/** The calendar day at this computer's place, `YYYY-MM-DD`. */
export const deviceDay = (wallMs: number): string => localDay(wallMs, deviceOffset(wallMs));

/** Today at this computer's place, `YYYY-MM-DD`. */
export const today = (): string => deviceDay(Date.now());
