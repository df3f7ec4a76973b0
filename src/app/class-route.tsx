import { windowName, windowPath } from "../../shared/api/shell.ts";
import { ClassFrame } from "../live/class-screen/class-frame.tsx";
import { CueSounder } from "../live/cue-sounder.tsx";
import { BoardScreen } from "../screens/board/board-screen.tsx";
import { TilesScreen } from "../screens/session/tiles-screen.tsx";

/** Only a window that was opened as the board is one: typed at the class screen, its address leads nowhere. */
const isBoard = () =>
  window.location.pathname === windowPath({ name: "board" }) &&
  (window.pebblechime !== undefined || window.name === windowName({ name: "board" }));

/** What the class looks at: the tiles or the board and nothing else, and the adult's way out. */
export function ClassRoute() {
  return (
    <CueSounder audience="class">
      <ClassFrame>{isBoard() ? <BoardScreen /> : <TilesScreen />}</ClassFrame>
    </CueSounder>
  );
}
