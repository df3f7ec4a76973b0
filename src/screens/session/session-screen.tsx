import { useEffect, useState } from "react";
import { Link, useParams } from "react-router";
import { useConnection } from "../../api/context.tsx";
import { Button } from "../../parts/button.tsx";
import { Page } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { usePreview } from "../../sound/use-preview.ts";
import { useSay } from "../../text/text.tsx";
import { Board } from "../board/board.tsx";
import { RecordTiles } from "./record-tiles.tsx";
import { SessionEnd } from "./session-end.tsx";
import { Strip } from "./strip.tsx";
import { useCueSound } from "./use-cue-sound.ts";
import { type LiveSession, useLiveSession } from "./use-live-session.ts";
import "./session.css";

/** The running session: the teacher's strip above, the class's board or the students' tiles below. */
export function SessionScreen() {
  const say = useSay();
  const { sessionId = "" } = useParams();
  const { live, error } = useLiveSession(sessionId);
  if (error !== null && live === null) {
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
  return <Running live={live} />;
}

function Running({ live }: { live: LiveSession }) {
  const say = useSay();
  const { session, state } = live;
  const isLive = state.status === "running" || state.status === "paused";
  const sound = useCueSound(session, isLive);
  const announce = usePreview();
  const [startedLive] = useState(isLive);

  // Announced once by the window that sounds cues, and only when the end happened in front of it.
  // biome-ignore lint/correctness/useExhaustiveDependencies: runs when the session ends, not when helpers change
  useEffect(() => {
    if (startedLive && !isLive && session.plan.cueing === "sound" && sound.isSounder) {
      void announce("end", session.plan.volume);
    }
  }, [isLive]);

  useEffect(() => {
    document.title = `${session.groupName} · Pebblechime`;
  }, [session.groupName]);

  return (
    <div className="session">
      <h1 className="only-for-readers">{say("session.titleOf", { group: session.groupName })}</h1>
      <Strip live={live} sound={sound} />
      {isLive ? <LiveArea live={live} /> : <SessionEnd live={live} />}
    </div>
  );
}

function LiveArea({ live }: { live: LiveSession }) {
  const say = useSay();
  const recordsHere = live.session.plan.recording === "screen" && live.session.kind === "seatwork";
  const [view, setView] = useState<"tiles" | "board">(recordsHere ? "tiles" : "board");
  return (
    <>
      <div className="session-views">
        {recordsHere ? (
          <fieldset className="session-switch">
            <legend className="only-for-readers">{say("session.show")}</legend>
            {(["tiles", "board"] as const).map((each) => (
              <Button
                key={each}
                look={view === each ? "main" : "plain"}
                aria-pressed={view === each}
                onPress={() => setView(each)}
              >
                {say(`session.show.${each}`)}
              </Button>
            ))}
          </fieldset>
        ) : null}
        <OpenBoard />
      </div>
      {view === "tiles" && recordsHere ? <RecordTiles live={live} /> : <Board live={live} />}
    </>
  );
}

/** Puts the class board in a window of its own, for a projector. */
function OpenBoard() {
  const say = useSay();
  const { link } = useConnection();
  const bridge = window.pebblechime;
  const openHere = () => window.open("/board", "pebblechime-board", "popup");
  const open = () => {
    if (bridge !== undefined && "openBoard" in bridge && typeof bridge.openBoard === "function") {
      void bridge.openBoard();
    } else {
      openHere();
    }
  };
  return (
    <Button isDisabled={link.state() === "closed"} onPress={open}>
      {say("session.openBoard")}
    </Button>
  );
}
