import { useEffect, useState } from "react";
import { useCueSounder } from "../../live/cue-sounder.tsx";
import { SteadyButton } from "../../parts/steady/steady-button.tsx";
import { useSay } from "../../text/text.tsx";
import "../../live/sound-state.css";

/** A class screen that has just been opened needs a moment until it shows cues, in ms. */
const openingMs = 2_000;

/**
 * At the foot of the teacher's view in a silent session: says that no window shows the class its cues. The bar
 * stands there all the while, so that the notice moves nothing and comes over nothing that is pressed.
 *
 * @param onShow has this window show them
 */
export function UnseenCues({ onShow }: { onShow: () => void }) {
  const say = useSay();
  const { giver } = useCueSounder().sound;
  const isUnseen = giver?.can === "none";
  const [isSaid, setSaid] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setSaid(isUnseen), isUnseen ? openingMs : 0);
    return () => clearTimeout(timer);
  }, [isUnseen]);
  if (!isUnseen || !isSaid) {
    return (
      <div className="cues-bar">
        {giver === null || isUnseen ? null : (
          <p className="strip-quiet">{say("sound.elsewhere")}</p>
        )}
      </div>
    );
  }
  return (
    <div className="cues-bar cues-lost">
      <div role="alert">
        <p className="cues-lost-title">{say("sound.notSeen")}</p>
        <p>{say("sound.unseenByClass")}</p>
      </div>
      <SteadyButton look="main" onPress={onShow}>
        {say("sound.showCuesHere")}
      </SteadyButton>
    </div>
  );
}
