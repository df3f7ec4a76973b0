import { useEffect, useState } from "react";
import { Link, useLocation } from "react-router";
import { useOpenSession } from "../api/queries.ts";
import { SteadyButton } from "../parts/steady/steady-button.tsx";
import { useSay } from "../text/text.tsx";
import { isMute, useCueSounder } from "./cue-sounder.tsx";
import type { CueSound } from "./giving/use-cue-sound.ts";
import "./sound-state.css";

/** Sound that has just been found needs a moment before it can be said to be off, in ms. */
const settlingMs = 700;

/**
 * On the session's own page, in the strip: tells at once when a cue could not sound or the next one cannot, and
 * what to do. Its place is kept while all sounds well, because what stands below it is being pressed.
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
  const reason = failure ?? problem;
  const isOff = status !== "not-wanted" && status !== "ready" && giver?.can !== "sound";
  return (
    <div className="strip-sound">
      {giver === null || status === "not-wanted" ? null : isOff ? (
        <>
          <p className="strip-sound-lost" role="alert">
            <strong>{say(`sound.${status}`)}</strong>{" "}
            <span>{say("sound.shownInstead", { where: shownOn })}</span>
          </p>
          <SteadyButton look="main" shown={status} onPress={sound.unlock}>
            {say("sound.tryNow")}
          </SteadyButton>
        </>
      ) : reason !== null ? (
        <p className="strip-sound-lost" role="alert">
          {say("sound.lastFailed", { reason: reason.replaceAll("-", "_"), where: shownOn })}
        </p>
      ) : giver.isHere ? null : (
        <p className="strip-quiet">{say("sound.elsewhere")}</p>
      )}
    </div>
  );
}

/**
 * At the foot of every other page of a teacher's window, large: the cues of the running session reach nobody, or
 * are seen only, and the one thing to do about it. The bar stands there as long as the session does, so that
 * the notice comes and goes where nothing else is pressed, and moves nothing.
 */
export function SoundStateElsewhere() {
  const say = useSay();
  const { sound, sessionId } = useCueSounder();
  const { pathname } = useLocation();
  const group = useOpenSession()?.groupName ?? "";
  const why = useSettled(problemOf(sound));
  if (sessionId === null || pathname === `/session/${sessionId}`) return null;
  return (
    <div className={`cues-bar ${why === null ? "" : "cues-lost"}`}>
      {why === null ? (
        <p className="strip-quiet">{say("sound.saidHere", { group })}</p>
      ) : (
        <CuesDoNotReach why={why} sound={sound} sessionId={sessionId} />
      )}
    </div>
  );
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
    <>
      <div role="alert">
        <p className="cues-lost-title">
          {say(why === "unseen" ? "sound.notSeen" : "sound.notHeard")}
        </p>
        <p>{say(`sound.${why}`)}</p>
      </div>
      {why === "unseen" ? (
        <Link className="cues-lost-act" to={`/session/${sessionId}`}>
          {say("sound.showCues")}
        </Link>
      ) : (
        <SteadyButton look="main" onPress={sound.unlock}>
          {say("sound.tryNow")}
        </SteadyButton>
      )}
    </>
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
