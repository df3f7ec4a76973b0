import { useEffect } from "react";
import { useOpenSession } from "../../api/queries.ts";
import { Board } from "../../live/board.tsx";
import { LinkState } from "../../live/frame.tsx";
import { useLiveSession } from "../../live/use-live-session.ts";
import { ClassTimers } from "../../points/class-timers.tsx";
import { useSay } from "../../text/text.tsx";

/** The class board in a window of its own, for a projector: it follows whatever session is open. */
export function BoardScreen() {
  const say = useSay();
  const open = useOpenSession();
  useEffect(() => {
    document.title = `${say("board.label")} · Pebblechime`;
  }, [say]);
  return (
    <main className="board-alone">
      <h1 className="only-for-readers">{say("board.label")}</h1>
      <LinkState />
      {open === null ? (
        <div className="board">
          <p className="board-words">{say("board.none")}</p>
          <ClassTimers />
        </div>
      ) : (
        <Following key={open.id} sessionId={open.id} />
      )}
    </main>
  );
}

function Following({ sessionId }: { sessionId: string }) {
  const { live } = useLiveSession(sessionId);
  return live === null ? null : <Board live={live} />;
}
