import { useEffect, useReducer, useState } from "react";
import type { Session } from "../../shared/api/sessions.ts";
import type { Student } from "../../shared/roster/roster.ts";
import type { SessionEvent } from "../../shared/session/event.ts";
import { reduce } from "../../shared/session/reduce.ts";
import { emptySession, type SessionState } from "../../shared/session/state.ts";
import { useConnection } from "../api/context.tsx";
import { useAsk } from "../api/queries.ts";

export interface LiveSession {
  session: Session;
  students: readonly Student[];
  state: SessionState;
}

/**
 * One session as its log says, from its first event on and live. A page that reloads or reconnects asks
 * for what came after the last event it has, so nothing is missed and nothing comes twice.
 */
export function useLiveSession(sessionId: string): {
  live: LiveSession | null;
  error: unknown;
  /** Whether its log can grow no more and was read to its end. */
  isWhole: boolean;
} {
  const { link } = useConnection();
  const facts = useAsk("groups", ["session", sessionId], (api) => api.sessions.get({ sessionId }));
  const [state, add] = useReducer(
    (now: SessionState, event: SessionEvent | "forget") =>
      event === "forget" ? emptySession : reduce(now, event),
    emptySession,
  );
  const [streamError, setStreamError] = useState<unknown>(null);
  const [isWhole, setWhole] = useState(false);

  useEffect(() => {
    let lastSeq = 0;
    add("forget");
    setStreamError(null);
    setWhole(false);
    return link.follow({
      open: (api, signal) => api.sessions.watch({ sessionId, after: lastSeq }, { signal }),
      onItem: (event) => {
        lastSeq = event.stamp.seq;
        add(event);
      },
      onState: (now) => setWhole(now === "ended"),
      onError: setStreamError,
    });
  }, [link, sessionId]);

  const live = facts.data === undefined ? null : { ...facts.data, state };
  return { live, error: facts.error ?? streamError, isWhole };
}
