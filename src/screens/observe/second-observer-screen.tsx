import { useEffect } from "react";
import { useParams } from "react-router";
import { LinkState } from "../../live/frame.tsx";
import { type LiveSession, useLiveSession } from "../../live/use-live-session.ts";
import { Notice } from "../../parts/notice.tsx";
import { Page } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { ObservePanel } from "./observe-panel.tsx";
import "../../live/session.css";

/** A second observer's record of the same cues, in a window of its own. It shows nothing of the first one's. */
export function SecondObserverScreen() {
  const say = useSay();
  const { sessionId = "" } = useParams();
  const { live, error } = useLiveSession(sessionId);
  useEffect(() => {
    document.title = `${say("observe.second")} · Pebblechime`;
  }, [say]);
  return (
    <main>
      <LinkState />
      <Page title={say("observe.second")} lead={live?.session.groupName}>
        <Problem error={error} />
        {live === null ? null : <Recording live={live} />}
      </Page>
    </main>
  );
}

function Recording({ live }: { live: LiveSession }) {
  const say = useSay();
  const { kind } = live.session;
  if (kind !== "baseline" && kind !== "probe") {
    return <Notice>{say("observe.secondOnlyObserved")}</Notice>;
  }
  if (live.state.status === "ended") return <Notice>{say("observe.secondDone")}</Notice>;
  return (
    <>
      <p>{say("observe.secondHelp")}</p>
      <ObservePanel live={live} observer={2} />
    </>
  );
}
