import { lastRate } from "../../shared/reading/last-rate.ts";
import { useFormats, useSay } from "../text/text.tsx";
import { wordTrend } from "../words/trend-word.ts";
import { groupJob, useGroupCounts, useReading } from "./use-reading.ts";

/** How the group's last session went, and where it is going; the line keeps its place while that is not known. */
export function LastSession(props: { groupId: string; className?: string }) {
  const { groupId, className } = props;
  const say = useSay();
  const formats = useFormats();
  const counts = useGroupCounts(groupId).data;
  const last = counts === undefined ? null : lastRate(counts);
  const answer = useReading(last === null ? undefined : counts, groupJob(counts)).data;
  const trend = answer?.kind === "group" ? answer.reading.said.trend : null;
  if (last === null) {
    return <p className={className}>{counts === undefined ? null : say("today.noLast")}</p>;
  }
  return (
    <p className={className}>
      {say("today.last", {
        day: formats.day(last.day),
        rate: formats.percent(last.on / last.marks),
      })}
      {trend === null || trend.kind === "not-enough"
        ? ""
        : ` ${say("today.trend", { word: wordTrend({ say }, trend) })}`}
    </p>
  );
}
