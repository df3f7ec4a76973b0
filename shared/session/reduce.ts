import type { SessionEvent } from "./event.ts";
import { sessionFold } from "./fold.ts";
import type { SessionState } from "./state.ts";

/** The state of a session after one more event; the same one when the event is known already. */
export function reduce(state: SessionState, event: SessionEvent): SessionState {
  return event.stamp.seq <= state.lastSeq ? state : replay([event], state);
}

/** The state after all of a log, or after the rest of one when `from` is given. */
export function replay(events: Iterable<SessionEvent>, from?: SessionState): SessionState {
  const fold = sessionFold(from);
  for (const event of events) fold.take(event);
  return fold.state();
}
