import { useEffect, useState } from "react";
import { deliveredCues } from "../../../shared/session/state.ts";
import { useOpenSession } from "../../api/queries.ts";
import { Board } from "../../live/board.tsx";
import { LinkState } from "../../live/frame.tsx";
import { useLastMarks } from "../../live/use-last-marks.ts";
import { type LiveSession, useLiveSession } from "../../live/use-live-session.ts";
import { useSilentCues } from "../../live/use-silent-cues.ts";
import { useSay } from "../../text/text.tsx";
import { RecordTiles } from "./record-tiles.tsx";
import { recordsOnScreen } from "./views.ts";
import "../../live/board.css";
import "../../live/session.css";

/**
 * The students' tiles in a window of their own, so that the teacher's strip stays on the teacher's screen.
 * It follows whatever session is open, and keeps the last one until its last marks are in.
 */
export function TilesScreen() {
  const say = useSay();
  const open = useOpenSession();
  const [lastId, setLastId] = useState<string | null>(null);
  const openId = open?.id ?? null;
  useEffect(() => {
    if (openId !== null) setLastId(openId);
  }, [openId]);
  useEffect(() => {
    document.title = `${say("tiles.label")} · Pebblechime`;
  }, [say]);
  const shownId = openId ?? lastId;
  return (
    <main className="tiles-alone">
      <h1 className="only-for-readers">{say("tiles.label")}</h1>
      <LinkState />
      {shownId === null ? (
        <div className="board">
          <p className="board-words">{say("board.none")}</p>
        </div>
      ) : (
        <Following key={shownId} sessionId={shownId} />
      )}
    </main>
  );
}

function Following({ sessionId }: { sessionId: string }) {
  const { live } = useLiveSession(sessionId);
  return live === null ? null : <FollowingTiles live={live} />;
}

function FollowingTiles({ live }: { live: LiveSession }) {
  useSilentCues(live);
  const isLive = live.state.status === "running" || live.state.status === "paused";
  if (!recordsOnScreen(live.session)) return <Board live={live} />;
  return isLive ? <RecordTiles live={live} /> : <LastTiles live={live} />;
}

function LastTiles({ live }: { live: LiveSession }) {
  const takesMarks = useLastMarks(true) && deliveredCues(live.state).length > 0;
  return takesMarks ? <RecordTiles live={live} /> : <Board live={live} />;
}
