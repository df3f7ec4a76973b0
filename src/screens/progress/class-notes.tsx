import { Link } from "react-router";
import type { GroupReading } from "../../../shared/reading/group-reading.ts";
import { useVoice } from "../../words/use-voice.ts";

/** Whom the sentences on a class are about, where not everybody was there all the time. */
export function WhoWasThere({ said }: Pick<GroupReading, "said">) {
  const { say } = useVoice();
  const { trend, week } = said;
  const presence = trend.kind === "enough" ? trend.presence : null;
  const isMixed = presence !== null && presence.laterOnly + presence.earlierOnly > 0;
  const missedWeek = week.kind === "enough" && week.laterOnly + week.earlierOnly > 0;
  if (!isMixed && !missedWeek) return null;
  return (
    <p className="progress-facts">
      {isMixed
        ? say("sure.whoChanged", { later: presence.laterOnly, earlier: presence.earlierOnly })
        : ""}{" "}
      {missedWeek ? say("sure.weekStudents", { students: week.students }) : ""}
    </p>
  );
}

/**
 * Share of steady students who are flagged as falling at some time in twelve weekly looks: 2 to 5 % as
 * simulated for ten cues, held under 5 % by the short form of the calibration.
 */
const flaggedByChance = 0.05;

/** How many flags chance alone would set, and where to read how sure all of this is. */
export function ByChance({ groupId, students }: { groupId: string; students: number }) {
  const { say } = useVoice();
  return (
    <p className="progress-facts">
      {say("sure.byChance", { students, flagged: Math.round(flaggedByChance * students) })}{" "}
      <Link to={`/progress/how-sure/${groupId}`}>{say("sure.title")}</Link>
    </p>
  );
}
