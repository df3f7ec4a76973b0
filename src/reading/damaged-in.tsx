import { Link } from "react-router";
import { useCare } from "../api/queries.ts";
import { Notice } from "../parts/notice.tsx";
import { useFormats, useSay } from "../text/text.tsx";

/** Whether sessions of a group cannot be read, so that what is said of it leaves them out. */
export const useDamagedIn = (groupName: string) =>
  (useCare()?.damaged ?? []).filter((session) => session.groupName === groupName);

/** Says so where a group's numbers stand, with the way to the remedy; nothing when all is well. */
export function DamagedIn({ groupName: group }: { groupName: string }) {
  const say = useSay();
  const formats = useFormats();
  const sessions = useDamagedIn(group);
  if (sessions.length === 0) return null;
  return (
    <Notice kind="caution" title={say("care.damaged")}>
      {sessions.map(({ sessionId, day, entries }) => (
        <p key={sessionId}>
          {say(entries === 0 ? "care.damaged.plan" : "care.damaged.entries", {
            group,
            day: formats.fullDay(day),
            entries,
          })}
        </p>
      ))}
      <p>
        <Link to="/settings">{say("nav.settings")}</Link>
      </p>
    </Notice>
  );
}
