import { useEffect, useState } from "react";
import { useSearchParams } from "react-router";
import { deliveredCues } from "../../../shared/session/state.ts";
import { useOpenSession } from "../../api/queries.ts";
import { Board } from "../../live/board.tsx";
import { LinkState } from "../../live/frame.tsx";
import { RecordTiles } from "../../live/tiles/record-tiles.tsx";
import { useClassCues } from "../../live/use-class-cues.ts";
import { useLastMarks } from "../../live/use-last-marks.ts";
import { type LiveSession, useLiveSession } from "../../live/use-live-session.ts";
import { useSay } from "../../text/text.tsx";
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

/** All tiles, or the one of the student whom the address names. */
function FollowingTiles({ live }: { live: LiveSession }) {
  const say = useSay();
  const [search] = useSearchParams();
  const onlyId = search.get("student");
  useClassCues(live);
  // While work rests nobody is asked anything: the board says so, large.
  const isBoards = !recordsOnScreen(live.session) || live.state.status === "paused";
  if (isBoards) return <Board live={live} />;
  if (onlyId !== null && !live.students.some(({ id }) => id === onlyId)) {
    return (
      <div className="board">
        <p className="board-words">{say("tiles.notHere")}</p>
      </div>
    );
  }
  return live.state.status === "running" ? (
    <RecordTiles live={live} onlyId={onlyId} />
  ) : (
    <LastTiles live={live} onlyId={onlyId} />
  );
}

function LastTiles({ live, onlyId }: { live: LiveSession; onlyId: string | null }) {
  const takesMarks = useLastMarks(true) && deliveredCues(live.state).length > 0;
  return takesMarks ? <RecordTiles live={live} onlyId={onlyId} /> : <Board live={live} />;
}
