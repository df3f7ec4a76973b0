import { useEffect, useState } from "react";
import { useCueSounder } from "../../live/cue-sounder.tsx";
import { Button } from "../../parts/button.tsx";
import { useSay } from "../../text/text.tsx";
import "./unseen-cues.css";

/** A class screen that has just been opened needs a moment until it shows cues, in ms. */
const openingMs = 2_000;

/**
 * Below the teacher's view in a silent session: says that no window shows the class its cues. It lies over the
 * foot of the page, so that nothing moves by it.
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
  if (!isUnseen || !isSaid) return null;
  return (
    <div className="unseen-cues" role="alert">
      <p className="unseen-cues-title">{say("sound.notSeen")}</p>
      <p>{say("sound.unseenByClass")}</p>
      <Button look="main" onPress={onShow}>
        {say("sound.showCuesHere")}
      </Button>
    </div>
  );
}
