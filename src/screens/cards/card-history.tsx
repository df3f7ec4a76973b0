import type { Correction } from "../../../shared/api/records.ts";
import { localDay } from "../../../shared/calendar/local-day.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { useAsk } from "../../api/queries.ts";
import { Problem } from "../../parts/problem.tsx";
import { type Say, useFormats, useSay } from "../../text/text.tsx";
import { signs } from "./signs.ts";

/** What was corrected on a student's card: what stood there, what took its place, and when. */
export function CardHistory(props: { sessionId: string; student: Student; count: number }) {
  const say = useSay();
  const formats = useFormats();
  const { sessionId, student, count } = props;
  const answer = useAsk("records", ["corrections", sessionId, student.id, count], (api) =>
    api.records.corrections({ sessionId, studentId: student.id }),
  );
  if (answer.data === undefined) {
    return answer.error === null ? say("wait") : <Problem error={answer.error} />;
  }
  return (
    <table className="cards-history" aria-label={say("cards.historyOf", { name: student.name })}>
      <thead>
        <tr>
          <th scope="col">{say("cards.history.when")}</th>
          <th scope="col">{say("cards.history.was")}</th>
          <th scope="col">{say("cards.history.is")}</th>
        </tr>
      </thead>
      <tbody>
        {answer.data.map(({ was, is, wallMs, offsetMinutes }, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the history only ever grows at its end
          <tr key={index}>
            <th scope="row">
              {formats.day(localDay(wallMs, offsetMinutes))}, {formats.time(wallMs, offsetMinutes)}
            </th>
            <td>{wordEntry(say, was)}</td>
            <td>{wordEntry(say, is)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function wordEntry(say: Say, entry: Correction["was"]): string {
  if (entry.kind === "totals") return say("cards.totalsAre", { on: entry.on, off: entry.off });
  const { box, value, way, late } = entry;
  return say("cards.history.box", {
    box,
    sign: signs[value],
    value,
    way,
    late: late ? "yes" : "no",
  });
}
