import { useMemo, useRef } from "react";
import { Link } from "react-router";
import { dayNumber, dayText, mondayOf } from "../../../shared/calendar/calendar.ts";
import { dayNumbers } from "../../../shared/calendar/days-off.ts";
import { longestJoinedDays } from "../../../shared/reading/graph-points.ts";
import type { GroupReading, StudentGlance } from "../../../shared/reading/group-reading.ts";
import { phasesFor } from "../../../shared/reading/phase-spans.ts";
import type { Span } from "../../../shared/reading/span.ts";
import { toldChance } from "../../../shared/reading/told-chance.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import { programFor } from "../../../shared/roster/program.ts";
import { withPictureSheet } from "../../charts/picture-sheet.ts";
import { SaveButtons, type SaveChart } from "../../charts/save-buttons.tsx";
import { Scroll } from "../../charts/scroll.tsx";
import { SmallMultiple } from "../../charts/small-multiple.tsx";
import { axisDate, useDayAxis } from "../../charts/use-day-axis.ts";
import { More } from "../../parts/more.tsx";
import { useProgram } from "../../reading/use-program.ts";
import { wordChance } from "../../words/advice-words.ts";
import { useVoice } from "../../words/use-voice.ts";
import {
  type Voice,
  wordFlag,
  wordNotEnough,
  wordTrend,
  wordWeekChange,
} from "../../words/words.ts";

/** Longer spans than this show weeks instead of sessions. */
const mostDaysOfSessions = 130;

interface GlanceProps {
  readonly counts: GroupCounts;
  readonly reading: GroupReading;
  readonly span: Span;
  readonly goal: number | null;
}

/** Everybody at a glance, on the same scale, in the roster's order. */
export function Glance(props: GlanceProps) {
  const { counts, reading, span, goal } = props;
  const voice = useVoice();
  const { say, formats } = voice;
  const byWeek = dayNumber(span.last) - dayNumber(span.first) > mostDaysOfSessions;
  const { tickFormat } = useDayAxis()(dayNumber(span.first), dayNumber(span.last));
  const off = useMemo(() => dayNumbers(counts.daysOff), [counts.daysOff]);
  const names = new Map(counts.students.map(({ id, name }) => [id, name]));
  const list = useRef<HTMLUListElement>(null);
  const scale = say(byWeek ? "glance.weeks" : "glance.sessions", {
    from: tickFormat(axisDate(dayNumber(span.first))),
    to: tickFormat(axisDate(dayNumber(span.last))),
    goal: goal === null ? "–" : formats.percent(goal),
  });
  const title = say("trend.glancePicture", { group: counts.group.name });
  const save = (how: SaveChart) => {
    const drawings = [...(list.current?.querySelectorAll("svg") ?? [])];
    const parts = reading.students.flatMap((glance, at) => {
      const drawing = drawings[at];
      if (drawing === undefined) return [];
      const name = names.get(glance.studentId) ?? "";
      return { drawing, name, note: overallOf(voice, glance) };
    });
    const words = { title, summary: scale };
    return withPictureSheet(parts, words, (sheet) => how(sheet, words));
  };
  return (
    <>
      <p className="progress-facts">{scale}</p>
      <ul className="glance" ref={list}>
        {reading.students.map((glance) => (
          <li key={glance.studentId}>
            <OneStudent
              {...props}
              glance={glance}
              name={names.get(glance.studentId) ?? ""}
              byWeek={byWeek}
              off={off}
            />
          </li>
        ))}
      </ul>
      <div className="figure-foot">
        <More className="progress-more" label={say("chart.asTable")}>
          <WeeksTable {...props} names={names} />
        </More>
        <SaveButtons what={title} onSave={save} />
      </div>
    </>
  );
}

interface OneProps extends GlanceProps {
  readonly glance: StudentGlance;
  readonly name: string;
  readonly byWeek: boolean;
  readonly off: ReadonlySet<number>;
}

function OneStudent(props: OneProps) {
  const { counts, glance, span, goal, name, byWeek, off } = props;
  const voice = useVoice();
  const phaseStarts = phasesFor(counts.phases, glance.studentId).map(
    ({ startsOn }) => dayNumber(startsOn) - 0.25,
  );
  return (
    <figure className="glance-one" aria-label={voice.say("glance.figure", { name })}>
      <figcaption>
        <Link to={`/progress/${counts.group.id}/${glance.studentId}`}>{name}</Link>
        <span className="progress-facts">{overallOf(voice, glance)}</span>
      </figcaption>
      <SmallMultiple
        series={byWeek ? glance.weeks : glance.sessions}
        from={dayNumber(span.first)}
        to={dayNumber(span.last) + 1}
        goal={goal}
        phaseStarts={phaseStarts}
        longestJoined={byWeek ? longestJoinedDays + 4 : longestJoinedDays}
        off={off}
      />
      <p className="glance-words">{changeOf(voice, glance, counts.today)}</p>
      <GoalChance glance={glance} counts={counts} />
      {glance.flags.length === 0 ? null : (
        <ul className="glance-flags">
          {glance.flags.map((flag) => (
            <li key={flag.kind}>{wordFlag(voice, flag)}</li>
          ))}
        </ul>
      )}
    </figure>
  );
}

/** How likely the newest sessions at this step make it that the student is at the goal. */
function GoalChance({ glance, counts }: { glance: StudentGlance; counts: GroupCounts }) {
  const voice = useVoice();
  const ofGroup = useProgram(counts.group.id);
  const student = counts.students.find(({ id }) => id === glance.studentId);
  const program = ofGroup === undefined ? undefined : programFor(ofGroup, student);
  const chance = program === undefined ? null : toldChance(glance, program);
  if (program === undefined || chance === null) return null;
  return (
    <p className="glance-words">
      {voice.say("advice.glance", {
        goal: voice.formats.percent(program.goal),
        chance: wordChance(voice, chance),
      })}
    </p>
  );
}

/** All sessions together; empty when there is nothing to say yet. */
function overallOf(voice: Voice, { overall }: StudentGlance): string {
  if (overall.kind === "not-enough") return "";
  return voice.say("glance.overall", {
    rate: voice.formats.percent(overall.rate),
    sessions: overall.sessions,
  });
}

/** The trend of the present phase; what is missing where there is too little is among the flags already. */
function changeOf(voice: Voice, glance: StudentGlance, today: string): string {
  if (glance.overall.kind === "not-enough") return wordNotEnough(voice, glance.overall);
  if (glance.observedOnly) return voice.say("glance.observedOnly");
  const { trend, week } = glance.said;
  if (trend.kind === "enough") return wordTrend(voice, trend);
  // A phase that has just begun has no trend yet, and perhaps no second week.
  return week.kind === "enough" ? wordWeekChange(voice, week, today) : "";
}

/** Weekly rates of everybody within the span: the numbers behind the small figures. */
function WeeksTable({ reading, span, names }: GlanceProps & { names: Map<string, string> }) {
  const { say, formats } = useVoice();
  const from = dayNumber(span.first);
  const to = dayNumber(span.last) + 1;
  const mondays = new Set<number>();
  const rates = reading.students.map(({ studentId, weeks }) => {
    const byMonday = new Map<number, number>();
    for (const [index, at] of weeks.at.entries()) {
      if (at < from || at > to) continue;
      const monday = mondayOf(Math.floor(at));
      mondays.add(monday);
      byMonday.set(monday, weeks.rate[index] ?? 0);
    }
    return { studentId, byMonday };
  });
  const columns = [...mondays].sort((a, b) => a - b);
  return (
    <Scroll label={say("glance.table")}>
      <table className="progress-table">
        <caption>{say("glance.table")}</caption>
        <thead>
          <tr>
            <th scope="col">{say("glance.student")}</th>
            {columns.map((monday) => (
              <th key={monday} scope="col">
                {formats.shortDay(dayText(monday))}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rates.map(({ studentId, byMonday }) => (
            <tr key={studentId}>
              <th scope="row">{names.get(studentId) ?? ""}</th>
              {columns.map((monday) => {
                const rate = byMonday.get(monday);
                return <td key={monday}>{rate === undefined ? "–" : formats.percent(rate)}</td>;
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  );
}
