import { useMemo } from "react";
import { Link } from "react-router";
import type { GroupReading } from "../../../shared/reading/group-reading.ts";
import { howSurePlan } from "../../../shared/reading/how-sure/how-sure-plan.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import { useHowSure } from "../../compute/use-how-sure.ts";
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
 * How many flags chance alone would set in a class of this size in twelve weekly looks, as computed for its
 * own cues, rate and sessions a week, and where to read how sure all of this is.
 */
export function ByChance({ counts }: { counts: GroupCounts }) {
  const { say } = useVoice();
  const sure = useHowSure(useMemo(() => howSurePlan(counts).plan, [counts])).data;
  const students = counts.students.length;
  return (
    <p className="progress-facts">
      {sure === undefined
        ? ""
        : say("sure.byChance", {
            students,
            flagged: Math.round(sure.usual.flagged * students),
            alike: Math.round(sure.alike.flagged * students),
          })}{" "}
      <Link to={`/progress/how-sure/${counts.group.id}`}>{say("sure.title")}</Link>
    </p>
  );
}
