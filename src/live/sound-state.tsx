import { useEffect, useState } from "react";
import { Link, useLocation } from "react-router";
import { Button } from "../parts/button.tsx";
import { Notice } from "../parts/notice.tsx";
import { useSay } from "../text/text.tsx";
import { isMute, useCueSounder } from "./cue-sounder.tsx";
import type { CueSound } from "./giving/use-cue-sound.ts";
import "./sound-state.css";

/** Sound that has just been found needs a moment before it can be said to be off, in ms. */
const settlingMs = 700;

/**
 * On the session's own page: tells at once when a cue could not sound or the next one cannot, and what to do.
 *
 * @param problem what the record says of the newest cue, where a window follows the record
 * @param shownOn where this page shows a cue that does not sound
 */
export function SoundState({
  problem = null,
  shownOn = "board",
}: {
  problem?: string | null;
  shownOn?: "board" | "tiles" | undefined;
}) {
  const say = useSay();
  const { sound } = useCueSounder();
  const { giver, status, failure } = sound;
  if (status === "not-wanted" || giver === null) return null;
  if (giver.can !== "sound" && status !== "ready") {
    return (
      <Notice kind="caution" title={say(`sound.${status}`)}>
        <p>{say("sound.shownInstead", { where: shownOn })}</p>
        <Button look="main" onPress={sound.unlock}>
          {say("sound.tryNow")}
        </Button>
      </Notice>
    );
  }
  const reason = failure ?? problem;
  if (reason !== null) {
    return (
      <Notice kind="caution">
        {say("sound.lastFailed", { reason: reason.replaceAll("-", "_"), where: shownOn })}
      </Notice>
    );
  }
  return giver.isHere ? null : <p className="strip-quiet">{say("sound.elsewhere")}</p>;
}

/**
 * On every other page of a teacher's window, large: the cues of the running session reach nobody, or are
 * seen only, and the one thing to do about it.
 */
export function SoundStateElsewhere() {
  const { sound, sessionId } = useCueSounder();
  const { pathname } = useLocation();
  const why = useSettled(problemOf(sound));
  if (why === null || sessionId === null || pathname === `/session/${sessionId}`) return null;
  return <CuesDoNotReach why={why} sound={sound} sessionId={sessionId} />;
}

/** What is wrong with the cues: sound is off here and they are only seen, or lost; or there is no sign of them. */
type Trouble = "only-seen" | "unheard" | "unseen";

function problemOf(sound: CueSound): Trouble | null {
  const { giver, status } = sound;
  if (giver === null) return null;
  if (status === "not-wanted") return giver.can === "none" ? "unseen" : null;
  if (!isMute(sound)) return null;
  return giver.can === "sight" ? "only-seen" : "unheard";
}

function CuesDoNotReach(props: { why: Trouble; sound: CueSound; sessionId: string }) {
  const say = useSay();
  const { why, sound, sessionId } = props;
  return (
    <div className="cues-lost" role="alert">
      <p className="cues-lost-title">
        {say(why === "unseen" ? "sound.notSeen" : "sound.notHeard")}
      </p>
      <p>{say(`sound.${why}`)}</p>
      {why === "unseen" ? (
        <Link className="cues-lost-act" to={`/session/${sessionId}`}>
          {say("sound.showCues")}
        </Link>
      ) : (
        <Button look="main" onPress={sound.unlock}>
          {say("sound.tryNow")}
        </Button>
      )}
    </div>
  );
}

/** A trouble that has lasted for a moment; none of it while it may still pass by itself. */
function useSettled(trouble: Trouble | null): Trouble | null {
  const [settled, setSettled] = useState<Trouble | null>(null);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(trouble), trouble === null ? 0 : settlingMs);
    return () => clearTimeout(timer);
  }, [trouble]);
  return trouble === null ? null : settled;
}
