import { dot, ruleX, ruleY, text } from "@observablehq/plot";
import { dayNumber } from "../../../shared/analysis/calendar.ts";
import { Figure, ink } from "../../charts/figure.tsx";
import { Section } from "../../parts/page.tsx";
import { localMoment } from "./graph-points.ts";
import type { SectionProps } from "./student-progress-screen.tsx";
import { axisDate, useDayAxis } from "./use-day-axis.ts";
import { useVoice } from "./use-voice.ts";

/** One session's work beside its on-task rate. */
interface WorkPoint {
  readonly sessionId: string;
  readonly day: string;
  readonly at: number;
  readonly assigned: number;
  readonly completed: number;
  readonly correct: number | null;
  /** Share of the assigned items that were completed, at most 1; null when nothing was assigned. */
  readonly done: number | null;
  readonly rate: number | null;
}

/** Work done beside the on-task rate: working is the aim, not looking busy. */
export function WorkSection({ counts, reading }: SectionProps) {
  const { say, formats } = useVoice();
  const dayAxis = useDayAxis();
  const points = workPoints({ counts, reading });
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined) {
    return (
      <Section title={say("progress.work")}>
        <p className="progress-facts">{say("work.none")}</p>
      </Section>
    );
  }
  const from = dayNumber(first.day) - 1;
  const to = dayNumber(last.day) + 2;
  const { tickFormat, locale } = dayAxis(to - from);
  const x = ({ at }: WorkPoint) => axisDate(at);
  const assigned = points.reduce((sum, point) => sum + point.assigned, 0);
  const completed = points.reduce((sum, point) => sum + point.completed, 0);
  return (
    <Section title={say("progress.work")}>
      <Figure
        title={say("work.title")}
        summary={say("work.summary", { sessions: points.length, assigned, completed })}
        drawnFrom={[reading, locale]}
        points={points.flatMap((point) =>
          point.done === null
            ? []
            : {
                key: point.sessionId,
                x: x(point),
                y: point.done,
                words: say("work.point", {
                  day: formats.day(point.day),
                  assigned: point.assigned,
                  completed: point.completed,
                  rate: point.rate === null ? "–" : formats.percent(point.rate),
                }),
              },
        )}
        draw={(width) => ({
          width,
          height: 210,
          marginLeft: 44,
          marginRight: 46,
          marginTop: 34,
          marginBottom: 34,
          x: {
            type: "utc",
            domain: [axisDate(from), axisDate(to)],
            label: null,
            tickFormat,
            ticks: width / 130,
          },
          y: { domain: [0, 1], label: null, tickFormat: formats.percent, ticks: 5 },
          marks: [
            ruleY([0], { stroke: ink.text }),
            ruleX([axisDate(from)], { stroke: ink.text }),
            text([say("work.legend")], { frameAnchor: "top-left", dy: -24, fill: ink.soft }),
            dot(points, { x, y: "rate", r: 3.5, fill: ink.text }),
            dot(points, {
              x,
              y: "done",
              r: 4.5,
              symbol: "diamond",
              fill: ink.paper,
              stroke: ink.lake,
              strokeWidth: 1.75,
            }),
          ],
        })}
        rows={points}
        rowKey={({ sessionId }) => sessionId}
        columns={[
          { label: say("graph.day"), cell: ({ day }) => formats.day(day) },
          { label: say("work.assigned"), cell: (point) => formats.number(point.assigned) },
          { label: say("work.completed"), cell: (point) => formats.number(point.completed) },
          {
            label: say("work.correct"),
            cell: ({ correct }) => (correct === null ? "–" : formats.number(correct)),
          },
          {
            label: say("graph.rate"),
            cell: ({ rate }) => (rate === null ? "–" : formats.percent(rate)),
          },
        ]}
      />
    </Section>
  );
}

function workPoints({ counts, reading }: Pick<SectionProps, "counts" | "reading">): WorkPoint[] {
  const rates = new Map(
    reading.points
      .filter(({ source }) => source === "self")
      .map(({ sessionId, rate }) => [sessionId, rate]),
  );
  const own = new Map(
    counts.work
      .filter(({ studentId }) => studentId === reading.studentId)
      .map((work) => [work.sessionId, work]),
  );
  return counts.sessions.flatMap((session) => {
    const work = own.get(session.id);
    if (work === undefined) return [];
    const { assigned, completed, correct } = work;
    return {
      sessionId: session.id,
      day: session.day,
      at: localMoment(session),
      assigned,
      completed,
      correct,
      done: assigned === 0 ? null : Math.min(1, completed / assigned),
      rate: rates.get(session.id) ?? null,
    };
  });
}
