import type { Pattern } from "../../../shared/analysis/patterns.ts";
import type { Result } from "../../../shared/statistics/result.ts";
import { More } from "../../parts/more.tsx";
import { Section } from "../../parts/page.tsx";
import { useVoice } from "../../words/use-voice.ts";
import type { SectionProps } from "./section-props.ts";

/** Patterns by hour, weekday and subject, where enough sessions were held to compare any. */
export function PatternsSection({ reading }: SectionProps) {
  const { say } = useVoice();
  const { hour, weekday, subject } = reading.self.patterns;
  if ([hour, weekday, subject].every(({ kind }) => kind === "not-enough")) return null;
  return (
    <Section title={say("progress.patterns")}>
      <OnePattern
        kind="hour"
        pattern={hour}
        named={(start) => say("pattern.hour", { hour: start })}
      />
      <OnePattern
        kind="weekday"
        pattern={weekday}
        named={(day) => say(`pattern.weekday.${weekdayOf(day)}`)}
      />
      <OnePattern kind="subject" pattern={subject} named={(what) => what} />
    </Section>
  );
}

function OnePattern<Key extends string | number>({
  kind,
  pattern,
  named,
}: {
  kind: "hour" | "weekday" | "subject";
  pattern: Result<Pattern<Key>>;
  named: (key: Key) => string;
}) {
  const { say, formats } = useVoice();
  if (pattern.kind === "not-enough") return null;
  const standing = pattern.kinds.filter(({ evidence }) => evidence !== "cannot-tell");
  return (
    <div>
      {standing.length === 0 ? (
        <p>{say(`pattern.none.${kind}`)}</p>
      ) : (
        standing.map(({ key, shrunkRate, evidence, sessions }) => (
          <p key={key}>
            {say("pattern.stands", {
              what: named(key),
              sure: evidence === "clear" ? "clear" : "probable",
              direction: shrunkRate > pattern.overall ? "up" : "down",
              rate: formats.percent(shrunkRate),
              overall: formats.percent(pattern.overall),
              sessions,
            })}
          </p>
        ))
      )}
      <More className="progress-more" label={say(`pattern.table.${kind}`)}>
        <table className="progress-table" aria-label={say(`pattern.table.${kind}`)}>
          <thead>
            <tr>
              <th scope="col">{say(`pattern.head.${kind}`)}</th>
              <th scope="col">{say("weeks.sessions")}</th>
              <th scope="col">{say("graph.rate")}</th>
              <th scope="col">{say("pattern.shrunk")}</th>
              <th scope="col">{say("graph.interval")}</th>
            </tr>
          </thead>
          <tbody>
            {pattern.kinds.map(({ key, sessions, rate, shrunkRate, interval }) => (
              <tr key={key}>
                <th scope="row">{named(key)}</th>
                <td>{formats.number(sessions)}</td>
                <td>{formats.percent(rate)}</td>
                <td>{formats.percent(shrunkRate)}</td>
                <td>
                  {formats.percent(interval.lower)} – {formats.percent(interval.upper)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
        <p>{say("pattern.help")}</p>
      </More>
    </div>
  );
}

const weekdays = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"] as const;
/** ISO weekday, 1 Monday to 7 Sunday, as the catalogue names it. */
const weekdayOf = (number: number) => weekdays[number - 1] ?? "sun";
