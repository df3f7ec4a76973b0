import { dot, ruleX, ruleY } from "@observablehq/plot";
import { useMemo } from "react";
import { dayNumber } from "../../../shared/calendar/calendar.ts";
import type { Span } from "../../../shared/reading/span.ts";
import { type WorkPoint, workPoints, workSums } from "../../../shared/reading/work-points.ts";
import { Figure, ink } from "../../charts/figure.tsx";
import { legendMarks, legendRows, moreRoom } from "../../charts/legend.ts";
import type { ReadablePoint } from "../../charts/point-reader.tsx";
import { axisDate, useDayAxis } from "../../charts/use-day-axis.ts";
import { Section } from "../../parts/page.tsx";
import { useVoice } from "../../words/use-voice.ts";
import type { Voice } from "../../words/words.ts";
import type { SectionProps } from "./section-props.ts";

/** Work done beside the on-task rate, over the days shown: working is the aim, not looking busy. */
export function WorkSection({ counts, reading, span }: SectionProps & { span: Span }) {
  const { say, formats } = useVoice();
  const { first, last } = span;
  const points = useMemo(
    () => workPoints(counts, reading.studentId, reading.points, { first, last }),
    [counts, reading, first, last],
  );
  const isEntered = counts.work.some(({ studentId }) => studentId === reading.studentId);
  if (points.length > 0) {
    return (
      <Section title={say("progress.work")}>
        <WorkFigure points={points} span={span} />
      </Section>
    );
  }
  const days = { from: formats.fullDay(first), to: formats.fullDay(last) };
  return (
    <Section title={say("progress.work")}>
      <p className="progress-facts">{isEntered ? say("work.noneShown", days) : say("work.none")}</p>
    </Section>
  );
}

const leftPx = 52;

function WorkFigure({ points, span }: { points: readonly WorkPoint[]; span: Span }) {
  const voice = useVoice();
  const { say, formats } = voice;
  const dayAxis = useDayAxis();
  const from = dayNumber(span.first) - 0.5;
  const to = dayNumber(span.last) + 1.5;
  const { axis, locale } = dayAxis(from, to);
  const x = ({ at }: WorkPoint) => axisDate(at);
  const sums = workSums(points);
  const knowsRight = points.some(({ right }) => right !== null);
  const legend = say(knowsRight ? "work.legendRight" : "work.legend");
  return (
    <Figure
      title={say("work.figure")}
      summary={`${say("work.summary", { sessions: points.length, ...sums })} ${
        knowsRight ? say("work.summaryRight", sums) : ""
      }`.trim()}
      drawnFrom={[points, span.first, span.last, locale]}
      points={points.flatMap((point) => readable(voice, point))}
      draw={(width) => ({
        width,
        height: 210,
        marginLeft: leftPx,
        marginRight: 46,
        marginTop: 34 + moreRoom(legendRows(legend, width - leftPx)),
        marginBottom: 34,
        x: axis(width),
        y: { domain: [0, 1], label: null, tickFormat: formats.percent, ticks: 5 },
        marks: [
          ruleY([0], { stroke: ink.text }),
          ruleX([axisDate(from)], { stroke: ink.text }),
          ...legendMarks(legendRows(legend, width - leftPx), 24),
          dot(points, { x, y: "rate", r: 3.5, fill: ink.text }),
          dot(points, { x, y: "done", r: 4.5, symbol: "diamond", ...hollow(ink.lake) }),
          dot(points, { x, y: "right", r: 4, symbol: "triangle", ...hollow(ink.clay) }),
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
        { label: say("graph.rate"), cell: ({ rate }) => shareOf(voice, rate) },
      ]}
    />
  );
}

const hollow = (stroke: string) => ({ fill: ink.paper, stroke, strokeWidth: 1.75 });

const shareOf = ({ formats }: Voice, share: number | null): string =>
  share === null ? "–" : formats.percent(share);

function readable(voice: Voice, point: WorkPoint): ReadablePoint[] {
  const { sessionId, day, at, assigned, completed, correct, done, rate } = point;
  if (done === null) return [];
  return [
    {
      key: sessionId,
      x: axisDate(at),
      y: done,
      words: voice.say("work.point", {
        day: voice.formats.day(day),
        assigned,
        completed,
        correct: correct ?? 0,
        known: correct === null ? "no" : "yes",
        rate: shareOf(voice, rate),
      }),
    },
  ];
}
