import { useEffect, useState } from "react";
import { Link, useParams } from "react-router";
import { useOpenSession } from "../api/queries.ts";
import { type LiveSession, useLiveSession } from "../live/use-live-session.ts";
import { Page } from "../parts/page.tsx";
import { Problem } from "../parts/problem.tsx";
import { ObserverSession } from "../screens/observe/observer-session.tsx";
import { SessionScreen } from "../screens/session/session-screen.tsx";
import { useSay } from "../text/text.tsx";

/** The address of a session leads to the screen of its kind. */
export function SessionRoute() {
  const say = useSay();
  const { sessionId = "" } = useParams();
  const { live, error, isWhole } = useLiveSession(sessionId);
  const open = useOpenSession();
  const [readId, setReadId] = useState<string | null>(null);
  // An old session's events come one by one, and until the last it looks as if it ran: as if the class were
  // looking on. Once it is shown it stays, since at its end it is open no more.
  const isRead = isWhole || live?.state.status === "ended" || open?.id === sessionId;
  if (isRead && readId !== sessionId) setReadId(sessionId);
  // A log of which something cannot be read gives no first event, and never will.
  if (error !== null && (live === null || live.state.status === "ready")) {
    return (
      <Page title={say("session.title")}>
        <Problem error={error} />
        <Link to="/">{say("app.goToday")}</Link>
      </Page>
    );
  }
  if (live === null || live.state.status === "ready" || readId !== sessionId) {
    return <Page title={say("session.title")}>{say("wait")}</Page>;
  }
  return <Known key={sessionId} live={live} />;
}

function Known({ live }: { live: LiveSession }) {
  const { kind, groupName } = live.session;
  useEffect(() => {
    document.title = `${groupName} · Pebblechime`;
  }, [groupName]);
  return kind === "baseline" || kind === "probe" ? (
    <ObserverSession live={live} />
  ) : (
    <SessionScreen live={live} />
  );
}
