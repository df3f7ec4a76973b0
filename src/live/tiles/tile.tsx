import { memo, useEffect, useLayoutEffect, useRef, useState } from "react";
import type { Student } from "../../../shared/roster/roster.ts";
import type { MarkValue } from "../../../shared/session/event.ts";
import { SteadyButton } from "../../parts/steady/steady-button.tsx";
import { useSay } from "../../text/text.tsx";
import { TileFace } from "./tile-face.tsx";
import { TileSign } from "./tile-signs.tsx";

/** After any change a tile takes nothing for so long: a bouncing finger answers once, in ms. */
const restMs = 600;
/** How long an answer can be taken back, in ms. */
const undoMs = 10_000;

/** What a tile is at: nothing asked yet, asked, or settled for this cue. */
export type TileStage = "waiting" | "asked" | "recorded" | "away";

interface TileProps {
  student: Student;
  /** The cue that is asked about. */
  cue: number | null;
  stage: TileStage;
  /** Keeps an answer, or takes it back; settles when that is durable, rejects when it was not. */
  onMark: (student: Student, value: MarkValue) => Promise<unknown>;
  /** Keeps that the student was away, or takes it back, as `onMark` does. */
  onAway: (student: Student, isAway: boolean) => Promise<unknown>;
}

/**
 * One student's tile. Everything on it keeps its own element and place, whatever is asked; what does not
 * belong to the present stage is out of sight and cannot be pressed. It is drawn anew only when something of
 * its own changes: thirty stand side by side, and each answer and each second concerns one of them, or none.
 */
export const Tile = memo(function Tile({ student, cue, stage, onMark, onAway }: TileProps) {
  const say = useSay();
  const { name } = student;
  const canUndo = useUndoTime(stage, cue);
  const shown = `${stage} ${cue}`;
  const takeOne = useOneAtATime();

  const isAsked = stage === "asked";
  const isSettled = stage === "recorded" || stage === "away";
  const answer = (value: MarkValue) => takeOne(() => onMark(student, value));
  const undo = () => (stage === "away" ? takeOne(() => onAway(student, false)) : answer("none"));
  return (
    <div className={`tile tile-${stage}`} role="group" aria-label={name} tabIndex={-1}>
      <TileFace student={student} />
      <div className="tile-answers">
        <SteadyButton
          className="tile-answer"
          shown={shown}
          restMs={restMs}
          isDisabled={!isAsked}
          onPress={() => answer("on")}
          aria-label={say("tiles.yesNamed", { name })}
        >
          <TileSign name="yes" />
          {say("tiles.yes")}
        </SteadyButton>
        <SteadyButton
          className="tile-answer"
          shown={shown}
          restMs={restMs}
          isDisabled={!isAsked}
          onPress={() => answer("off")}
          aria-label={say("tiles.noNamed", { name })}
        >
          <TileSign name="no" />
          {say("tiles.no")}
        </SteadyButton>
        <span className="tile-said">
          {isSettled ? (
            <>
              <TileSign name={stage} />
              {say(stage === "recorded" ? "tiles.done" : "tiles.wasAway")}
            </>
          ) : null}
        </span>
      </div>
      <div className="tile-foot">
        <SteadyButton
          look="quiet"
          className="tile-small tile-small-away"
          shown={shown}
          restMs={restMs}
          isDisabled={!isAsked}
          onPress={() => takeOne(() => onAway(student, true))}
          aria-label={say("tiles.awayNamed", { name })}
        >
          {say("tiles.away")}
        </SteadyButton>
        <SteadyButton
          look="quiet"
          className={`tile-small ${canUndo ? "" : "is-gone"}`}
          shown={shown}
          restMs={restMs}
          isDisabled={!canUndo}
          onPress={undo}
          aria-label={say("tiles.undoNamed", { name })}
        >
          <TileSign name="undo" />
          <span className="tile-undo-word">{say("act.undo")}</span>
        </SteadyButton>
      </div>
    </div>
  );
});

/** Whether what was answered here can still be taken back; what was settled before this page opened cannot. */
function useUndoTime(stage: TileStage, cue: number | null): boolean {
  const settled = stage === "recorded" || stage === "away" ? `${stage} ${cue}` : null;
  const before = useRef(settled);
  const [open, setOpen] = useState<string | null>(null);
  useLayoutEffect(() => {
    if (settled === before.current) return;
    before.current = settled;
    setOpen(settled);
  }, [settled]);
  useEffect(() => {
    if (open === null) return;
    const timer = setTimeout(() => setOpen(null), undoMs);
    return () => clearTimeout(timer);
  }, [open]);
  return settled !== null && open === settled;
}

/** One answer at a time: until it is kept, and a moment longer, the next is not taken. */
function useOneAtATime(): (take: () => Promise<unknown>) => void {
  const busy = useRef(false);
  return (take) => {
    if (busy.current) return;
    busy.current = true;
    const free = () => {
      busy.current = false;
    };
    take().then(() => setTimeout(free, restMs), free);
  };
}
