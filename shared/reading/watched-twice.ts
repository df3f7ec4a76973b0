import { secondObserver } from "../agreement/second-observer.ts";
import type { PhaseSessions, PlacedSeries } from "../analysis/phases/phase-series.ts";
import { marked } from "../analysis/rate.ts";
import type { GroupCounts } from "../record/group-counts.ts";

/** How much of a phase was watched by a second observer; a reason where it is self-recorded. */
export type WatchedTwice = ReturnType<typeof secondObserver>;

/**
 * For each series, how many of its sessions two observers watched.
 *
 * @param split the phases from which the series were taken
 */
export function watchedTwiceIn(
  series: readonly PlacedSeries[],
  split: readonly PhaseSessions[],
  pairs: GroupCounts["observerPairs"],
): WatchedTwice[] {
  return series.map(({ place, source }) =>
    secondObserver(source === "observer" ? observedIn(split[place]) : [], pairs),
  );
}

/** The ids of a phase's observed sessions that are points of it. */
function observedIn(phase: PhaseSessions | undefined): string[] {
  return (phase?.sessions ?? [])
    .filter((session) => session.source === "observer" && marked(session) > 0)
    .map(({ sessionId }) => sessionId);
}
