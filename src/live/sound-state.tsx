import { useLocation } from "react-router";
import { Button } from "../parts/button.tsx";
import { Notice } from "../parts/notice.tsx";
import { useSay } from "../text/text.tsx";
import { isMute, useCueSounder } from "./cue-sounder.tsx";

/**
 * Tells at once when a cue could not sound or the next one cannot, and what to do.
 *
 * @param problem what the record says of the newest cue, where a window follows the record
 */
export function SoundState({ problem = null }: { problem?: string | null }) {
  const say = useSay();
  const { sound } = useCueSounder();
  const { isSounder, status } = sound;
  if (status === "not-wanted") return null;
  if (isSounder === false) return <p className="strip-quiet">{say("sound.elsewhere")}</p>;
  if (isSounder === true && status !== "ready") {
    return (
      <Notice kind="caution" title={say(`sound.${status}`)}>
        <p>{say("sound.shownInstead")}</p>
        <Button onPress={sound.unlock}>{say("sound.tryNow")}</Button>
      </Notice>
    );
  }
  const reason = sound.failure ?? problem;
  if (reason === null) return null;
  return (
    <Notice kind="caution">
      {say("sound.lastFailed", { reason: reason.replaceAll("-", "_") })}
    </Notice>
  );
}

/** The same on a page that is not the session's: there nobody sees a cue that does not sound. */
export function SoundStateElsewhere() {
  const say = useSay();
  const { sound } = useCueSounder();
  const { pathname } = useLocation();
  if (sound.status === "not-wanted" || !isMute(sound)) return null;
  if (pathname.startsWith("/session/")) return null;
  return (
    <Notice kind="caution" title={say("sound.notHeard")}>
      <p>{say("sound.goBack")}</p>
      <Button onPress={sound.unlock}>{say("sound.tryNow")}</Button>
    </Notice>
  );
}
