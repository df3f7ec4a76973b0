import { ClassFrame } from "../live/class-screen/class-frame.tsx";
import { CueSounder } from "../live/cue-sounder.tsx";
import { TilesScreen } from "../screens/session/tiles-screen.tsx";

/** The class's own screen: the tiles and nothing else, and the adult's way out. */
export function ClassRoute() {
  return (
    <CueSounder>
      <ClassFrame>
        <TilesScreen />
      </ClassFrame>
    </CueSounder>
  );
}
