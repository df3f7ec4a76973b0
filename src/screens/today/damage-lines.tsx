import { Link } from "react-router";
import { useCare } from "../../api/queries.ts";
import { wordDamage } from "../../words/damage-words.ts";
import { useVoice } from "../../words/use-voice.ts";

/** Sessions that cannot be read wait until somebody decides; this is never put aside. */
export function DamageLines() {
  const voice = useVoice();
  return (useCare()?.damaged ?? []).map((session) => (
    <li key={session.sessionId}>
      {wordDamage(voice, session)} <Link to="/settings">{voice.say("nav.settings")}</Link>
    </li>
  ));
}
