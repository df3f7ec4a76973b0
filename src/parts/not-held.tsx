import { Link } from "react-router";
import { useFormats, useSay } from "../text/text.tsx";

interface NotHeldProps {
  /** What a code on cards could stand for that is not here. */
  found: readonly {
    readonly groupId: string;
    readonly groupName: string;
    readonly planId: string;
    readonly planName: string;
    /** Null when the day is written by hand. */
    readonly day: string | null;
  }[];
}

/** Cards of a session that was held without the app, with the way to enter it. */
export function NotHeld({ found }: NotHeldProps) {
  const say = useSay();
  const formats = useFormats();
  return found.map(({ groupId, groupName, planId, planName, day }) => (
    <p key={`${planId} ${day}`}>
      {say("held.codeFound", {
        group: groupName,
        plan: planName,
        hasDay: day === null ? "no" : "yes",
        day: day === null ? "" : formats.fullDay(day),
      })}{" "}
      <Link to={`/groups/${groupId}/held?plan=${planId}${day === null ? "" : `&day=${day}`}`}>
        {say("held.codeEnter")}
      </Link>
    </p>
  ));
}
