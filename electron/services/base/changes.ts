import { type Change, type Topic, topics } from "../../../shared/api/app.ts";
import { bell, leavable } from "./stream.ts";

type ChangeMark = Omit<Change, "topics">;

/** Tells every page what was touched, so that each refreshes only that. */
export interface Changes {
  publish(...touched: Topic[]): void;
  /**
   * What was touched after `after`, then each new change as it comes, until `signal` aborts. A reader
   * from another run, or with no mark yet, is told that everything was. Several changes that a slow
   * reader has not taken become one, so that nothing piles up.
   */
  subscribe(after: ChangeMark | null, signal: AbortSignal): AsyncIterable<Change>;
}

/** @param epoch names this run of the desktop side, unlike any other run */
export function changeFeed(epoch: string): Changes {
  const changed = bell();
  const touchedAt = new Map<Topic, number>();
  let version = 0;

  async function* follow(after: ChangeMark | null, signal: AbortSignal) {
    const knows = after !== null && after.epoch === epoch && after.version <= version;
    let told = knows ? after.version : version;
    if (!knows) yield { epoch, version: told, topics: [...topics] };
    while (!signal.aborted) {
      if (version === told) await changed.rung(signal);
      if (signal.aborted || version === told) continue;
      const since = told;
      told = version;
      const touched = topics.filter((topic) => (touchedAt.get(topic) ?? 0) > since);
      yield { epoch, version: told, topics: touched };
    }
  }

  return {
    publish(...touched) {
      version += 1;
      for (const topic of touched) touchedAt.set(topic, version);
      changed.ring();
    },
    subscribe: (after, signal) => leavable(signal, (leaving) => follow(after, leaving)),
  };
}
