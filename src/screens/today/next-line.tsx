import type { GroupDay } from "../../live/reminder/use-day.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { useWordTime } from "../../words/use-word-time.ts";

/** What of a group's day was held, and what comes next by its timetable. */
export function NextLine({ day }: { day: GroupDay }) {
  const say = useSay();
  const formats = useFormats();
  const wordTime = useWordTime();
  const { held, next, due } = day;
  if (held.length === 0 && next === null) return null;
  const times = held.map((minutes) => formats.time(60_000 * minutes, 0));
  return (
    <p className={due === null ? "today-facts" : "today-due"}>
      {held.length === 0
        ? ""
        : `${say("today.heldSoFar", { count: held.length, times: formats.list(times) })} `}
      {next === null
        ? ""
        : say("today.nextStart", { period: next.name, time: wordTime(next.starts) })}
    </p>
  );
}
