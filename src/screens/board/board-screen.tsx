import { useEffect, useState } from "react";
import { useOpenSession } from "../../api/queries.ts";
import { ClassTimers } from "../../class/points/class-timers.tsx";
import { Board } from "../../live/board.tsx";
import { LinkState } from "../../live/frame.tsx";
import { useLiveSession } from "../../live/use-live-session.ts";
import { useSay } from "../../text/text.tsx";

/**
 * The class board in a window of its own, for a projector: it follows whatever session is open, and thanks
 * the class when that one has ended.
 */
export function BoardScreen() {
  const say = useSay();
  const openId = useOpenSession()?.id ?? null;
  const [lastId, setLastId] = useState<string | null>(null);
  useEffect(() => {
    if (openId !== null) setLastId(openId);
  }, [openId]);
  useEffect(() => {
    document.title = `${say("board.label")} · Pebblechime`;
  }, [say]);
  const shownId = openId ?? lastId;
  return (
    <main className="board-alone">
      <h1 className="only-for-readers">{say("board.label")}</h1>
      <LinkState />
      {shownId === null ? (
        <div className="board">
          <p className="board-words">{say("board.none")}</p>
          <ClassTimers />
        </div>
      ) : (
        <Following key={shownId} sessionId={shownId} />
      )}
    </main>
  );
}

function Following({ sessionId }: { sessionId: string }) {
  const { live } = useLiveSession(sessionId);
  return live === null ? null : <Board live={live} />;
}
