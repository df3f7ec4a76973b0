import { useEffect } from "react";
import { Link, useParams } from "react-router";
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
  const { live, error } = useLiveSession(sessionId);
  // A log of which something cannot be read gives no first event, and never will.
  if (error !== null && (live === null || live.state.status === "ready")) {
    return (
      <Page title={say("session.title")}>
        <Problem error={error} />
        <Link to="/">{say("app.goToday")}</Link>
      </Page>
    );
  }
  if (live === null || live.state.status === "ready") {
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
