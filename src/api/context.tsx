import { QueryClient, QueryClientProvider, useQueryClient } from "@tanstack/react-query";

import {
  createContext,
  type ReactNode,
  useCallback,
  useContext,
  useEffect,
  useSyncExternalStore,
} from "react";
import type { Change, Topic } from "../../shared/api/app.ts";
import type { Scope, Ticket } from "../../shared/api/entry.ts";

import type { Api, Link, LinkState } from "./api.ts";
import { keepTicket } from "./ticket.ts";

interface Connection {
  api: Api;
  link: Link;
  state: LinkState;
  /** What this window's line opens. */
  scope: Scope;
  /** Goes on with another ticket; nothing that the present one brought in is kept. */
  swap: (ticket: Ticket) => void;
}

const ConnectionContext = createContext<Connection | null>(null);

/** The typed procedures, and whether the desktop side is answering. */
export function useConnection(): Connection {
  const connection = useContext(ConnectionContext);
  if (connection === null) throw new Error("useConnection needs a ConnectionProvider above it");
  return connection;
}

const queryClient = new QueryClient({
  defaultOptions: {
    queries: {
      // Data changes only when the desktop side says so (see Refresh), so nothing goes stale by age.
      staleTime: Number.POSITIVE_INFINITY,
      refetchOnWindowFocus: false,
      networkMode: "always",
      retry: false,
    },
    mutations: { networkMode: "always" },
  },
});

/** Points and teams are read off plans, records and the roster too. */
const followers: ReadonlySet<unknown> = new Set<Topic>(["points", "teams"]);
const followed: ReadonlySet<Topic> = new Set([
  "settings",
  "groups",
  "students",
  "plans",
  "sessions",
  "records",
]);

/** Contracts and cards of a week are read off the records; what was agreed changes with people alone. */
const homeFollows: ReadonlySet<Topic> = new Set(["students", "groups", "sessions", "records"]);
const agreedFollows: ReadonlySet<Topic> = new Set(["students", "groups"]);

/** Keeps cached answers true: the stream of changes names the topics to ask for again. */
function Refresh() {
  const { link } = useConnection();
  const cache = useQueryClient();
  useEffect(() => {
    let last: Change | null = null;
    return link.follow({
      open: (api, signal) =>
        api.app.changes(
          { after: last && { epoch: last.epoch, version: last.version } },
          { signal },
        ),
      onItem: (change) => {
        const sameRun = last !== null && last.epoch === change.epoch;
        last = change;
        cache.invalidateQueries({
          predicate: ({ queryKey }) =>
            !sameRun ||
            change.topics.some((topic) => topic === queryKey[0]) ||
            (followers.has(queryKey[0]) && change.topics.some((topic) => followed.has(topic))) ||
            (queryKey[0] === "home" &&
              change.topics.some((topic) =>
                (queryKey[1] === "agreed" ? agreedFollows : homeFollows).has(topic),
              )),
        });
      },
    });
  }, [link, cache]);
  return null;
}

/** Gives every screen the API and a cache that the desktop side keeps fresh. */
export function ConnectionProvider({ link, children }: { link: Link; children: ReactNode }) {
  const state = useSyncExternalStore(link.onState, link.state);
  // It changes with the state only.
  const scope = useSyncExternalStore(link.onState, link.scope);
  const swap = useCallback(
    (ticket: Ticket) => {
      keepTicket(ticket);
      link.renew(ticket.scope);
      queryClient.clear();
    },
    [link],
  );
  return (
    <ConnectionContext value={{ api: link.api, link, state, scope, swap }}>
      <QueryClientProvider client={queryClient}>
        <Refresh />
        {children}
      </QueryClientProvider>
    </ConnectionContext>
  );
}
