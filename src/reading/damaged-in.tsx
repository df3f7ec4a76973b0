import { Link } from "react-router";
import { useCare } from "../api/queries.ts";
import { Notice } from "../parts/notice.tsx";
import { wordDamage } from "../words/damage-words.ts";
import { useVoice } from "../words/use-voice.ts";

/** Whether sessions of a group cannot be read, so that what is said of it leaves them out. */
export const useDamagedIn = (groupName: string) =>
  (useCare()?.damaged ?? []).filter((session) => session.groupName === groupName);

/** Says so where a group's numbers stand, with the way to the remedy; nothing when all is well. */
export function DamagedIn({ groupName }: { groupName: string }) {
  const voice = useVoice();
  const { say } = voice;
  const sessions = useDamagedIn(groupName);
  if (sessions.length === 0) return null;
  return (
    <Notice kind="caution" title={say("care.damaged")}>
      {sessions.map((session) => (
        <p key={session.sessionId}>{wordDamage(voice, session)}</p>
      ))}
      <p>
        <Link to="/settings">{say("nav.settings")}</Link>
      </p>
    </Notice>
  );
}
