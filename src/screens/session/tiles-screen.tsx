import { useEffect, useState } from "react";
import { useSearchParams } from "react-router";
import { deliveredCues } from "../../../shared/session/state.ts";
import { useOpenSession } from "../../api/queries.ts";
import { ClassTimers } from "../../class/points/class-timers.tsx";
import { OwnPurses } from "../../class/points/own-purses.tsx";
import { Board } from "../../live/board.tsx";
import { ClassTeams } from "../../live/class-screen/class-teams.tsx";
import { LinkState } from "../../live/frame.tsx";
import { RecordTiles } from "../../live/tiles/record-tiles.tsx";
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
          <ClassTimers />
          <OwnPurses />
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
  const { status } = live.state;
  const takesLastMarks = useLastMarks(status === "ended") && deliveredCues(live.state).length > 0;
  // Through pauses and until the last marks are in they stay the same tiles: what was said on them stands,
  // and a screen reader hears of the change in the one region that it listens to.
  const areTiles = status === "running" || status === "paused" || takesLastMarks;
  if (!areTiles || !recordsOnScreen(live.session)) {
    return (
      <>
        <Board live={live} />
        {status === "ended" ? <ClassTeams sessionId={live.session.id} /> : null}
        {/* While the class works nobody looks at points. An open purse lies over the teams. */}
        {status === "ended" ? <OwnPurses /> : null}
      </>
    );
  }
  if (onlyId !== null && !live.students.some(({ id }) => id === onlyId)) {
    return (
      <div className="board">
        <p className="board-words">{say("tiles.notHere")}</p>
      </div>
    );
  }
  return <RecordTiles live={live} onlyId={onlyId} />;
}
