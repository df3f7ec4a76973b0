import type { Store } from "../store/store.ts";

/** Sessions of one day are never more than this. */
const sessionsOfDay = 20;

/**
 * Students of a group who are absent on a day by its newest seatwork session, whose start asks who is here;
 * nobody where there was none yet.
 */
export function absentOn(
  { sessions, outlines }: Pick<Store, "sessions" | "outlines">,
  groupId: string,
  day: string,
): ReadonlySet<string> {
  const newest = sessions
    .list(groupId, sessionsOfDay)
    .find((session) => session.day === day && session.kind === "seatwork");
  return newest === undefined ? new Set() : outlines.of(newest.id).setAside;
}
