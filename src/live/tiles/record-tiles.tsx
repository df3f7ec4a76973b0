import { type CSSProperties, useCallback, useEffect, useRef, useState } from "react";
import type { Student } from "../../../shared/roster/roster.ts";
import type { MarkValue } from "../../../shared/session/event.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { isRefusal } from "../../api/client.ts";
import { useSettings, useTell } from "../../api/queries.ts";
import { haveOwnPictures } from "../../class/pictures/own-pictures.ts";
import { announce } from "../../parts/announcer.tsx";
import { useSay } from "../../text/text.tsx";
import { CueBand } from "../cue-sign.tsx";
import { PracticeExample } from "../practice-example.tsx";
import { useCueSign } from "../use-cue-sign.ts";
import type { LiveSession } from "../use-live-session.ts";
import { useNewestCue } from "../use-newest-cue.ts";
import { heldAnswers } from "./held-answers.ts";
import { Tile, type TileStage } from "./tile.tsx";
import { tileLayout } from "./tile-layout.ts";
import { useRoom } from "./use-room.ts";
import { useSeatsInRow } from "./use-seats.ts";
import { walkTiles } from "./walk.ts";
import "./tiles.css";

/** From so many tiles on, the question above them is one line. */
const manyTiles = 25;

interface RecordTilesProps {
  live: LiveSession;
  /** The one student whose tile stands alone, for a child who hears the screen; null for all. */
  onlyId?: string | null;
}

/**
 * The shared screen: one tile a student, in the order of the room. What was chosen is hidden the moment
 * it is recorded, so that nobody reads anybody else's answer. There is nothing here but the students' own:
 * an absent student is an empty place, and nobody can set another aside.
 */
export function RecordTiles({ live, onlyId = null }: RecordTilesProps) {
  const say = useSay();
  const { session, state } = live;
  const students = live.students.filter(({ id }) => onlyId === null || id === onlyId);
  const grid = useRef<HTMLUListElement>(null);
  const space = useRef<HTMLDivElement>(null);
  const [failed, setFailed] = useState(0);
  // What the sign asks is what a tile asks, also in the moment before the log has it.
  const cue = useNewestCue(live);
  const sign = useCueSign(live, { counts: true });
  const whenDelivered = useDelivery(state);
  const mark = useTell((api, input: { studentId: string; cue: number; value: MarkValue }) =>
    api.sessions.mark({ sessionId: session.id, ...input }),
  );
  const sayAway = useTell((api, input: { studentId: string; cue: number; away: boolean }) =>
    api.sessions.sayAway({ sessionId: session.id, ...input }),
  );
  const room = useRoom(space);
  const layout = useTileLayout(session.groupId, students.length, onlyId, room);
  const picturesOnly =
    useSettings()?.picturesOnly.includes(session.groupId) === true && haveOwnPictures(students);

  /** Has what a student says of the cue written, once the cue is known to have reached the class. */
  const onSaid = async (write: (cue: number) => Promise<unknown>, announcement: string) => {
    if (cue === null) return;
    try {
      if (!(await whenDelivered(cue))) return;
      await write(cue);
      setFailed(0);
      announce(announcement);
    } catch (error) {
      // The next cue was quicker than this answer, and its tile asks anew: there is nothing to repeat.
      if (!isRefusal(error, "cue-not-open")) setFailed((now) => now + 1);
      throw error;
    }
  };
  // Never which answer: it is nobody else's business.
  const doneWord = (name: string, isUndone: boolean) =>
    say(isUndone ? "tiles.undoneNamed" : "tiles.doneNamed", { name });
  const onMark = ({ id: studentId, name }: Student, value: MarkValue) =>
    onSaid(
      (ofCue) => mark.mutateAsync({ studentId, cue: ofCue, value }),
      doneWord(name, value === "none"),
    );
  const onAway = ({ id: studentId, name }: Student, away: boolean) =>
    onSaid((ofCue) => sayAway.mutateAsync({ studentId, cue: ofCue, away }), doneWord(name, !away));

  // Tiles keep these through all that is drawn anew; what they call is the newest.
  const taking = useRef({ onMark, onAway });
  taking.current = { onMark, onAway };
  const takeMark = useCallback(
    (student: Student, value: MarkValue) => taking.current.onMark(student, value),
    [],
  );
  const takeAway = useCallback(
    (student: Student, isAway: boolean) => taking.current.onAway(student, isAway),
    [],
  );

  return (
    <section
      className={[
        "tiles",
        picturesOnly ? "tiles-pictures" : "",
        students.length >= manyTiles ? "tiles-many" : "",
        state.status === "paused" ? "tiles-resting" : "",
      ].join(" ")}
      aria-label={say("tiles.label")}
    >
      <div className="tiles-head">
        <CueBand
          sign={sign}
          asks={say("tiles.question")}
          quiet={say(cue === null ? "tiles.waiting" : "tiles.stillOpen")}
          ended={cue === null ? undefined : say("tiles.lastAnswer")}
        />
        <p className="tiles-failed" role="alert">
          {failed > 0 ? say("tiles.failed") : ""}
        </p>
      </div>
      {session.kind === "practice" ? (
        <div className="tiles-example">
          <PracticeExample live={live} />
        </div>
      ) : null}
      <div className="tiles-space" ref={space} style={{ minHeight: layout?.leastHeight }}>
        <ul
          className="tiles-grid"
          style={gridStyle(layout)}
          ref={grid}
          onKeyDown={(event) => walkTiles(event, grid.current)}
        >
          {students.map((student) =>
            state.setAside.has(student.id) ? (
              <li key={student.id} className="tile-place" aria-hidden="true" />
            ) : (
              <li key={student.id} className="tile-place">
                <Tile
                  student={student}
                  cue={cue}
                  stage={stageOf(state, student.id, cue)}
                  onMark={takeMark}
                  onAway={takeAway}
                />
              </li>
            ),
          )}
        </ul>
      </div>
    </section>
  );
}

/** A mark may still come after the end; while work rests nobody is asked. */
function stageOf(state: SessionState, studentId: string, cue: number | null): TileStage {
  if (cue === null) return "waiting";
  const value = state.marks.get(studentId)?.get(cue)?.value ?? "none";
  if (value !== "none") return "recorded";
  if (state.saidAway.get(studentId)?.has(cue)) return "away";
  return state.status === "paused" ? "waiting" : "asked";
}

/** Has an answer wait until the log says that its cue reached the class; false when it says that it did not. */
function useDelivery(state: SessionState): (cue: number) => Promise<boolean> {
  const [held] = useState(heldAnswers);
  useEffect(() => held.look(state), [held, state]);
  useEffect(() => held.drop, [held]);
  return held.until;
}

function useTileLayout(
  groupId: string,
  count: number,
  onlyId: string | null,
  room: ReturnType<typeof useRoom>,
) {
  const seats = useSeatsInRow(groupId);
  return room === null ? null : tileLayout(count, onlyId === null ? seats : null, room);
}

function gridStyle(layout: ReturnType<typeof useTileLayout>): CSSProperties {
  if (layout === null) return { visibility: "hidden" };
  const { columns, rows } = layout;
  return {
    gridTemplateColumns: `repeat(${columns}, minmax(0, 1fr))`,
    gridTemplateRows: `repeat(${rows}, minmax(0, 1fr))`,
  };
}
