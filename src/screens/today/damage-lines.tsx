import { Link } from "react-router";
import { useCare } from "../../api/queries.ts";
import { useFormats, useSay } from "../../text/text.tsx";

/** Sessions that cannot be read wait until somebody decides; this is never put aside. */
export function DamageLines() {
  const say = useSay();
  const formats = useFormats();
  return (useCare()?.damaged ?? []).map(({ sessionId, groupName, day, entries }) => (
    <li key={sessionId}>
      {say(entries === 0 ? "care.damaged.plan" : "care.damaged.entries", {
        group: groupName,
        day: formats.fullDay(day),
        entries,
      })}{" "}
      <Link to="/settings">{say("nav.settings")}</Link>
    </li>
  ));
}
