import { useState } from "react";
import type { PointsBoard } from "../../../shared/api/points.ts";
import { useSettings } from "../../api/queries.ts";
import { SteadyButton } from "../../parts/steady/steady-button.tsx";
import { useAfterRest } from "../../parts/use-after-rest.ts";
import { useSay } from "../../text/text.tsx";
import { haveOwnPictures } from "../pictures/own-pictures.ts";
import { OwnPurse } from "./own-purse.tsx";
import { StudentFace } from "./student-face.tsx";
import { usePointsBoard } from "./use-points-board.ts";
import "./own-purses.css";

/** Pictures that nobody presses go away again, in ms. */
const idleMs = 60_000;

type Stage =
  | { readonly kind: "closed" }
  | { readonly kind: "choosing" }
  | { readonly kind: "open"; readonly studentId: string };

/**
 * A child's own points on a shared screen: the child presses their picture, sees one purse, and it closes by
 * itself. Two are never open, and nothing of it stands there before somebody asks.
 */
export function OwnPurses() {
  const say = useSay();
  const { board } = usePointsBoard();
  const [stage, setStage] = useState<Stage>({ kind: "closed" });
  if (board === null || board.students.length === 0) return null;
  const choose = () => setStage({ kind: "choosing" });
  const close = () => setStage({ kind: "closed" });
  const student =
    stage.kind === "open" ? board.students.find(({ id }) => id === stage.studentId) : undefined;
  if (student !== undefined)
    return <OwnPurse key={student.id} student={student} onClose={choose} />;
  if (stage.kind === "closed") {
    return (
      <SteadyButton className="own-purses-open" onPress={choose}>
        {say("purse.open")}
      </SteadyButton>
    );
  }
  return (
    <Pictures
      board={board}
      onChoose={(studentId) => setStage({ kind: "open", studentId })}
      onClose={close}
    />
  );
}

interface PicturesProps {
  board: PointsBoard;
  onChoose: (studentId: string) => void;
  onClose: () => void;
}

function Pictures({ board, onChoose, onClose }: PicturesProps) {
  const say = useSay();
  const picturesOnly =
    useSettings()?.picturesOnly.includes(board.groupId) === true && haveOwnPictures(board.students);
  useAfterRest([], idleMs, onClose);
  return (
    <section
      className={`own-purses ${picturesOnly ? "own-purses-pictures" : ""}`}
      aria-label={say("purse.choose")}
    >
      <p className="own-purses-ask">{say("purse.choose")}</p>
      <ul className="own-purses-grid">
        {board.students.map((student) => (
          <li key={student.id}>
            <SteadyButton
              className="own-purses-picture"
              aria-label={student.name}
              onPress={() => onChoose(student.id)}
            >
              <StudentFace student={student} />
            </SteadyButton>
          </li>
        ))}
      </ul>
      <SteadyButton look="quiet" className="own-purses-close" onPress={onClose}>
        {say("act.close")}
      </SteadyButton>
    </section>
  );
}
