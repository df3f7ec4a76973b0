import type { Store } from "../store/store.ts";

type Rolls = Pick<Store, "sessions" | "outlines" | "counts">;

/** Sessions of one day are never more than this. */
const sessionsOfDay = 20;

/** The newest seatwork session of a day; of a day long past the newest that counts. */
function newestSeatwork({ sessions, counts }: Rolls, groupId: string, day: string) {
  const isThen = (session: { readonly day: string; readonly kind: string }) =>
    session.day === day && session.kind === "seatwork";
  const newest = sessions.list(groupId, sessionsOfDay);
  const isAmong = newest.length < sessionsOfDay || (newest.at(-1)?.day ?? "") < day;
  return (
    newest.find(isThen) ?? (isAmong ? undefined : counts.ofGroup(groupId).sessions.findLast(isThen))
  );
}

/** When the newest seatwork session of a day began, ms since 1970; null where there was none. */
export const beganOn = (store: Rolls, groupId: string, day: string): number | null =>
  newestSeatwork(store, groupId, day)?.startedMs ?? null;

/**
 * Students of a group who are absent on a day by its newest seatwork session, whose start asks who is here;
 * nobody where there was none yet.
 */
export function absentOn(store: Rolls, groupId: string, day: string): ReadonlySet<string> {
  const newest = newestSeatwork(store, groupId, day);
  return newest === undefined ? new Set() : store.outlines.of(newest.id).setAside;
}

/**
 * Who is in no team and no pair of a day: who is absent, and who takes no part at all. Today that is as it is
 * said now, on an earlier day as it was said when its session began.
 */
export function awayOn(
  store: Rolls & Pick<Store, "agreed">,
  groupId: string,
  day: string,
  today: string,
): ReadonlySet<string> {
  const began = day === today ? null : beganOn(store, groupId, day);
  const takeNoPart =
    began === null
      ? store.agreed.saidNo(groupId, "cued")
      : store.agreed.hadSaidNo(groupId, "cued", began);
  return new Set([...absentOn(store, groupId, day), ...takeNoPart]);
}
