import { type CSSProperties, type KeyboardEvent, useEffect, useRef, useState } from "react";
import type { Student } from "../../../shared/roster/roster.ts";
import type { MarkValue } from "../../../shared/session/event.ts";
import { useTell } from "../../api/queries.ts";
import { PracticeExample } from "../../live/practice-example.tsx";
import type { LiveSession } from "../../live/use-live-session.ts";
import { seatsStyle, useSeatsInRow } from "../../live/use-seats.ts";
import { Button } from "../../parts/button.tsx";
import { Switch } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { haveOwnPictures } from "../../pictures/own-pictures.ts";
import { Picture } from "../../pictures/picture.tsx";
import { pictureNamed } from "../../pictures/picture-names.ts";
import { useSay } from "../../text/text.tsx";

/**
 * The shared screen: one tile a student, in the order of the room. What was chosen is hidden the moment
 * it is recorded, so that nobody reads anybody else's answer.
 */
export function RecordTiles({ live }: { live: LiveSession }) {
  const say = useSay();
  const { session, students, state } = live;
  const [arranging, setArranging] = useState(false);
  const grid = useRef<HTMLUListElement>(null);
  const cue = state.openCue;
  const mark = useTell((api, input: { studentId: string; cue: number; value: MarkValue }) =>
    api.sessions.mark({ sessionId: session.id, ...input }),
  );
  const aside = useTell((api, input: { studentId: string; aside: boolean }) =>
    api.sessions.setAside({ sessionId: session.id, ...input }),
  );
  // "I was away" is no mark at all, so nothing is written; the tile only rests until the next cue, and can
  // be taken up again until then.
  const [away, setAway] = useState<ReadonlySet<string>>(new Set());
  // biome-ignore lint/correctness/useExhaustiveDependencies: everybody is asked again at each cue
  useEffect(() => setAway(new Set()), [cue]);

  // Names can stay off a screen that everybody sees once each student has a picture nobody else has.
  const [picturesOnly, setPicturesOnly] = useState(false);
  const canHideNames = haveOwnPictures(students);
  const isAsked = cue !== null;
  const seatsInRow = useSeatsInRow(session.groupId);

  return (
    <section
      className={`tiles ${picturesOnly && canHideNames ? "tiles-pictures" : ""}`}
      aria-label={say("tiles.label")}
    >
      <div className="tiles-head">
        <p className="tiles-question" aria-live="polite">
          {cue === null ? say("tiles.waiting") : say("tiles.question")}
        </p>
        {canHideNames ? (
          <Switch
            label={say("tiles.picturesOnly")}
            value={picturesOnly}
            onChange={setPicturesOnly}
          />
        ) : null}
        <Switch label={say("tiles.arrange")} value={arranging} onChange={setArranging} />
      </div>
      {session.kind === "practice" ? <PracticeExample live={live} /> : null}
      <Problem error={mark.error ?? aside.error} />
      <ul
        className={seatsInRow === null ? "tiles-grid" : "tiles-grid tiles-rows"}
        style={{ ...seatsStyle(seatsInRow), ...gridShape(students.length, seatsInRow) }}
        ref={grid}
        onKeyDown={(event) => moveFocus(event, grid.current)}
      >
        {students.map((student) => (
          <li key={student.id}>
            {arranging ? (
              <AsideTile
                student={student}
                isAside={state.setAside.has(student.id)}
                onChange={(isAside) => aside.mutate({ studentId: student.id, aside: isAside })}
              />
            ) : (
              <Tile
                student={student}
                isAside={state.setAside.has(student.id)}
                isAsked={isAsked}
                isAway={away.has(student.id)}
                hasMark={
                  cue !== null &&
                  (state.marks.get(student.id)?.get(cue)?.value ?? "none") !== "none"
                }
                onMark={(value) => {
                  if (cue !== null) mark.mutate({ studentId: student.id, cue, value });
                }}
                onAway={(isAway) =>
                  setAway((now) => {
                    const next = new Set(now);
                    if (isAway) next.add(student.id);
                    else next.delete(student.id);
                    return next;
                  })
                }
              />
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** A little wider than high, as screens are: how many tiles stand side by side where there is room. */
const widerThanHigh = 1.6;
/** More of the narrowest tiles do not fit side by side on a laptop. */
const mostOnLaptop = 6;

/** Hands the shape of the grid to the style sheet, so that few students get large tiles. */
function gridShape(count: number, inRow: number | null): CSSProperties {
  const columns = inRow ?? Math.max(1, Math.ceil(Math.sqrt(count * widerThanHigh)));
  const shape: Record<string, number> = {
    "--columns": columns,
    "--rows": Math.max(1, Math.ceil(count / (inRow ?? Math.min(columns, mostOnLaptop)))),
  };
  return shape;
}

function Tile(props: {
  student: Student;
  isAside: boolean;
  isAsked: boolean;
  isAway: boolean;
  hasMark: boolean;
  onMark: (value: MarkValue) => void;
  onAway: (isAway: boolean) => void;
}) {
  const say = useSay();
  const { student, isAside, isAsked, isAway, hasMark, onMark, onAway } = props;
  const name = student.name;
  const face = <Face student={student} />;
  if (isAside) {
    return (
      <div className="tile tile-rests">
        {face}
        <div className="tile-answers">
          <span className="tile-said">{say("tiles.aside")}</span>
        </div>
      </div>
    );
  }
  if (hasMark || (isAway && isAsked)) {
    return (
      <div className="tile tile-rests">
        {face}
        <div className="tile-answers">
          <span className="tile-said">{say(hasMark ? "tiles.done" : "tiles.wasAway")}</span>
          <Button
            className="tile-small"
            onPress={() => (hasMark ? onMark("none") : onAway(false))}
            aria-label={say("tiles.undoNamed", { name })}
          >
            {say("act.undo")}
          </Button>
        </div>
      </div>
    );
  }
  return (
    <div className="tile" role="group" aria-label={name}>
      {face}
      <div className="tile-answers">
        <Button
          className="tile-answer"
          isDisabled={!isAsked}
          onPress={() => onMark("on")}
          aria-label={say("tiles.yesNamed", { name })}
        >
          {say("tiles.yes")}
        </Button>
        <Button
          className="tile-answer"
          isDisabled={!isAsked}
          onPress={() => onMark("off")}
          aria-label={say("tiles.noNamed", { name })}
        >
          {say("tiles.no")}
        </Button>
        <Button
          look="quiet"
          className="tile-small"
          isDisabled={!isAsked}
          onPress={() => onAway(true)}
          aria-label={say("tiles.awayNamed", { name })}
        >
          {say("tiles.away")}
        </Button>
      </div>
    </div>
  );
}

/** How a student knows the own tile: the picture, the name, or both. */
function Face({ student }: { student: Student }) {
  const picture = pictureNamed(student.picture);
  return (
    <span className="tile-face">
      {picture === null ? null : <Picture name={picture} />}
      <span className="tile-name">{student.name}</span>
    </span>
  );
}

function AsideTile(props: {
  student: Student;
  isAside: boolean;
  onChange: (isAside: boolean) => void;
}) {
  const say = useSay();
  const { student, isAside, onChange } = props;
  return (
    <div className={`tile ${isAside ? "tile-rests" : ""}`}>
      <Face student={student} />
      <div className="tile-answers">
        <Button
          className="tile-answer tile-arrange"
          onPress={() => onChange(!isAside)}
          aria-label={say(isAside ? "tiles.bringBackNamed" : "tiles.setAsideNamed", {
            name: student.name,
          })}
        >
          {say(isAside ? "tiles.bringBack" : "tiles.setAside")}
        </Button>
      </div>
    </div>
  );
}

/** Arrow keys walk the tiles as they lie on the screen. */
function moveFocus(event: KeyboardEvent, grid: HTMLElement | null) {
  const steps: Record<string, readonly [number, number]> = {
    ArrowLeft: [-1, 0],
    ArrowRight: [1, 0],
    ArrowUp: [0, -1],
    ArrowDown: [0, 1],
  };
  const step = steps[event.key];
  if (step === undefined || grid === null || !(event.target instanceof HTMLElement)) return;
  const from = event.target.getBoundingClientRect();
  const centre = (box: DOMRect) => [box.x + box.width / 2, box.y + box.height / 2] as const;
  const [fromX, fromY] = centre(from);
  const [stepX, stepY] = step;
  let nearest: HTMLElement | null = null;
  let nearestCost = Number.POSITIVE_INFINITY;
  for (const button of grid.querySelectorAll<HTMLElement>("button:not(:disabled)")) {
    const [x, y] = centre(button.getBoundingClientRect());
    const along = (x - fromX) * stepX + (y - fromY) * stepY;
    const across = Math.abs((x - fromX) * stepY) + Math.abs((y - fromY) * stepX);
    // Across counts double: straight ahead beats a nearer one off to the side.
    const cost = along + 2 * across;
    if (button === event.target || along <= 4 || cost >= nearestCost) continue;
    nearest = button;
    nearestCost = cost;
  }
  if (nearest === null) return;
  event.preventDefault();
  nearest.focus();
}
